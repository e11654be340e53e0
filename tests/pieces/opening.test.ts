import { describe, expect, it } from 'vitest';
import { openingRow } from '../../src/contract/piece-detail.js';
import { openOuting } from '../../src/outing/index.js';
import { findPieces, piecesResultOf } from '../../src/pieces/index.js';
import { openingRow as openingOf } from '../../src/pieces/opening.js';
import { pieceStrokes } from '../../src/pieces/piece-strokes.js';
import { evenStrokes, northTrack, outingOf } from '../outing/made-up.js';
import { race } from './simulated.js';
import { trueStart } from './true-start.js';

const WITHIN = { kind: 'between', fromS: 20, toS: 120 } as const;

describe('an opening', () => {
  // 5 m/s from 20 s on, after 10 s at 2 m/s: 20 strokes a minute, so 15 m a stroke
  const outing = outingOf(
    northTrack((atS) => (atS < 30 ? 2 : 5), 200),
    evenStrokes([{ fromS: 20, toS: 180, rateSpm: 20 }]),
  );
  const { openings } = piecesResultOf(outing, WITHIN, undefined, null, { openingStrokes: 6 });
  const [opening] = openings!;

  it('tells so many strokes of each piece, from mark to mark', () => {
    expect(openingRow.parse(opening)).toEqual(opening);
    expect(opening!.strokes).toHaveLength(6);
    for (const [i, stroke] of opening!.strokes.entries()) {
      expect(stroke.stroke).toBe(i + 1);
      expect(stroke.rate_spm).toBeCloseTo(20, 9);
      expect(stroke.at_s).toBeCloseTo(20 + 3 * i, 9);
      expect(stroke.cumulative_s).toBeCloseTo(3 * (i + 1), 9);
    }
    expect(opening!.strokes[0]!.distance_m).toBeCloseTo(6, 1);
    expect(opening!.strokes[5]!.distance_m).toBeCloseTo(15, 1);
    expect(opening!.strokes[5]!.cumulative_m).toBeCloseTo(20 + 8 * 5, 0);
  });

  it('is at race speed, the mean of the middle half, at the end of the first stroke that has it', () => {
    expect(opening!.race_speed_mps).toBeCloseTo(5, 2);
    // the fourth stroke is 1 s slow and 2 s fast, the fifth all fast
    expect(opening!.time_to_race_speed_s).toBeCloseTo(15, 9);
  });

  it('is timed to 100 m, with the sd of the start in it', () => {
    expect(opening!.time_to_100m_s).toBeCloseTo(10 + 80 / 5, 1);
    expect(opening!.time_to_100m_sd_s).toBeGreaterThanOrEqual(0.2);
  });

  it('knows no 100 m of a shorter piece, none across an outage, and no strokes of a log without', () => {
    const short = piecesResultOf(outing, { ...WITHIN, toS: 40 }, undefined, null, { openingStrokes: 6 });
    expect(short.openings![0]!.time_to_100m_s).toBeNull();
    const holed = { ...outing, track: { ...outing.track!, outages: [{ fromS: 24, toS: 34 }] } };
    const [across] = piecesResultOf(holed, WITHIN, undefined, null, { openingStrokes: 6 }).openings!;
    expect(across!.time_to_100m_s).toBeNull();
    expect(across!.strokes[1]!.distance_m).toBeNull();
    const bare = piecesResultOf(outingOf(outing.track, null), WITHIN, undefined, null, { openingStrokes: 6 });
    expect(bare.openings![0]!.strokes).toEqual([]);
    expect(bare.openings![0]!.time_to_race_speed_s).toBeNull();
    expect(bare.openings![0]!.time_to_100m_s).not.toBeNull();
  });

  it('is told only where it is asked for', () => {
    expect(piecesResultOf(outing, WITHIN).openings).toBeUndefined();
  });
});

describe('steadiness of pieces', () => {
  it('is of settled strokes alone: none of the first 20 s', () => {
    const strokes = evenStrokes([{ fromS: 20, toS: 180, rateSpm: 20 }]).map((stroke) => ({
      ...stroke,
      speedVariation: stroke.atS < 40 ? 0.5 : 0.1,
    }));
    const outing = outingOf(
      northTrack(() => 4, 200),
      strokes,
    );
    const bands = piecesResultOf(outing, WITHIN, undefined, null, { boundsSpm: [18, 22] }).rate_bands;
    // marks at 41, 44 … 119 s
    expect(bands.map(({ stroke_count }) => stroke_count)).toEqual([0, 27, 0]);
    expect(bands[1]).toMatchObject({ from_spm: 18, to_spm: 22 });
    expect(bands[1]!.speed_variation).toBeCloseTo(0.1, 9);
  });
});

describe.each(['dynamic', 'kinematic'] as const)('the opening of a race, %s simulator', (which) => {
  it('has the true metres and rate of each of 20 strokes, and the true time to 100 m', () => {
    for (const seed of [1, 2]) {
      const simulated = race(which, { seed, imu: true });
      const outing = openOuting([simulated.track!, simulated.imu!], { craft: '2x', placement: 'hull' });
      const piece = findPieces(outing, { kind: 'distance', metres: 1500 }).pieces[0]!;
      const opening = openingOf(outing, piece, 1, pieceStrokes(outing, piece), 20);
      const { alongM, stepS, catchMarksS } = simulated.truth;
      const alongAt = (atS: number) => {
        const i = Math.floor(atS / stepS);
        return alongM[i]! + (alongM[i + 1]! - alongM[i]!) * (atS / stepS - i);
      };
      const marks = catchMarksS.filter((atS) => atS > piece.fromS - 1.5);
      expect(opening.strokes).toHaveLength(20);
      opening.strokes.forEach(({ distance_m, rate_spm }, i) => {
        const [from, to] = [marks[i]!, marks[i + 1]!];
        expect(Math.abs(distance_m! - (alongAt(to) - alongAt(from)))).toBeLessThan(0.2);
        // the first mark, from rest, is the first movement and harder to see
        expect(Math.abs(rate_spm! - 60 / (to - from))).toBeLessThan(i === 0 ? 1.5 : 0.4);
      });
      const { stretches } = simulated.truth;
      const startS = trueStart(simulated.truth, stretches.findLast(({ kind }) => kind === 'rowing')!.fromS);
      const hundred = alongM.findIndex((metres) => metres >= alongAt(startS) + 100) * stepS - startS;
      expect(Math.abs(opening.time_to_100m_s! - hundred)).toBeLessThan(0.3);
    }
  });
});
