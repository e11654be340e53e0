import { describe, expect, it } from 'vitest';
import type { Curve } from '../../src/contract/curve.js';
import { offCurveRow } from '../../src/contract/piece-detail.js';
import { curveBlocks, curveOf, piecesResultOf } from '../../src/pieces/index.js';
import { offCurve } from '../../src/pieces/off-curve.js';
import type { PieceStroke } from '../../src/pieces/piece-strokes.js';
import { simulate } from '../../src/simulate/index.js';
import { simulateTwin } from '../simulator/twin.js';
import { trueOuting } from './true-outing.js';

/** Constant work, 5 m/s at 30 spm. */
const CURVE: Curve = {
  exponent: 1 / 3,
  exponent_low: 0.3,
  exponent_high: 0.36,
  plateau_spm: null,
  reference_rate_spm: 30,
  reference_speed_mps: 5,
  rate_from_spm: 18,
  rate_to_spm: 36,
  speed_over: 'ground',
  stroke_count: 400,
  points: [],
};

/** A piece of even strokes at 30 spm, at this share of the curve. */
const strokesAt = (shares: readonly number[]): PieceStroke[] =>
  shares.map((share, i) => ({
    stroke: i + 1,
    at_s: 100 + 2 * i,
    cumulative_s: 2 * (i + 1),
    rate_spm: 30,
    speed_mps: 5 * share,
    distance_m: 10 * share,
    distance_sd_m: 0.1,
    cumulative_m: null,
  }));

const times = (count: number, share: number): number[] => Array.from({ length: count }, () => share);

describe('where speed and rate part company', () => {
  it('is a stretch of strokes off the level of the piece, each stroke listed', () => {
    const rows = offCurve(
      'a.gpx',
      2,
      strokesAt([...times(30, 1), ...times(10, 0.9), ...times(30, 1)]),
      CURVE,
    );
    expect(rows).toHaveLength(1);
    expect(offCurveRow.parse(rows[0])).toEqual(rows[0]);
    expect(rows[0]).toMatchObject({ file: 'a.gpx', piece: 2, side: 'below', from_stroke: 31, to_stroke: 40 });
    expect(rows[0]!.speed_against_curve_pct).toBeCloseTo(90, 6);
    expect(rows[0]!.level_against_curve_pct).toBeCloseTo(100, 6);
    expect(rows[0]!.strokes.map(({ stroke }) => stroke)).toEqual([31, 32, 33, 34, 35, 36, 37, 38, 39, 40]);
    expect([rows[0]!.start_at_s, rows[0]!.end_at_s]).toEqual([160, 180]);
  });

  it('is nowhere in a piece that is slow as a whole, in a few strokes, or in the first 20 s', () => {
    for (const shares of [
      times(60, 0.92),
      [...times(30, 1), ...times(5, 0.9), ...times(30, 1)],
      [...times(9, 0.7), ...times(40, 1)],
    ])
      expect(offCurve('a.gpx', 1, strokesAt(shares), CURVE)).toEqual([]);
  });

  it('says nothing of rates that the curve does not have', () => {
    const fast = strokesAt([...times(30, 1), ...times(10, 0.9)]).map((row) => ({ ...row, rate_spm: 40 }));
    expect(offCurve('a.gpx', 1, fast, CURVE)).toEqual([]);
  });
});

describe('pieces beside a curve', () => {
  const outing = trueOuting(
    simulate({
      craft: '4x',
      seed: 4,
      script: [24, 28].flatMap((rate) => [
        { do: 'row' as const, rate_spm: rate, time_s: 120 },
        { do: 'rest' as const, time_s: 40 },
      ]),
      sensors: { gnss: { hz: 1 } },
    }),
  );
  const beside = (curve: Curve) => piecesResultOf(outing, { kind: 'unaided' }, undefined, null, { curve });

  it('carry their speed against it, and their parts too', () => {
    const { pieces, warnings } = beside(CURVE);
    for (const piece of pieces)
      for (const row of [piece, ...piece.parts])
        expect(row.speed_against_curve_pct).toBeCloseTo(
          (100 * row.speed_mps!) / (5 * (row.rate_spm! / 30) ** (1 / 3)),
          6,
        );
    expect(pieces).toHaveLength(2);
    expect(warnings).toEqual([]);
  });

  it('are told where the curve has no such rate, or is of another kind of speed', () => {
    const narrow = beside({ ...CURVE, rate_from_spm: 26 });
    expect(narrow.pieces.map(({ speed_against_curve_pct }) => speed_against_curve_pct === null)).toEqual([
      true,
      false,
    ]);
    expect(narrow.warnings.map(({ message }) => message)).toEqual([
      expect.stringMatching(
        /^The curve is of 26\.0 to 36\.0 spm, so it says nothing of piece 1 at 2[34]\.\d spm\.$/,
      ),
    ]);
    expect(beside({ ...CURVE, speed_over: 'water' }).warnings.map(({ code }) => code)).toEqual([
      'speeds-mixed',
    ]);
  });

  it('have null without one', () => {
    const { pieces, off_curve } = piecesResultOf(outing, { kind: 'unaided' });
    expect(off_curve).toBeUndefined();
    for (const piece of pieces) expect(piece.speed_against_curve_pct).toBeNull();
  });
});

describe.each(['dynamic', 'kinematic'] as const)('40 s of weak strokes in a piece, %s simulator', (which) => {
  const CRAFTS = ['1x', '2-', '4x', '8+'] as const;
  const SLOW = { '1x': 3.6, '2-': 3.8, '4x': 4.6, '8+': 4.7 } as const;
  const rowed = (seed: number) => {
    const craft = CRAFTS[seed % 4]!;
    if (which === 'kinematic')
      return simulateTwin({
        craft,
        seed,
        imu: null,
        script: [
          ...[20, 24, 28, 32].flatMap((rateSpm) => [{ rowS: 150, rateSpm }, { restS: 40 }]),
          { rowS: 80, rateSpm: 28 },
          { rowS: 40, rateSpm: 28, speedMps: SLOW[craft], label: 'weak' },
          { rowS: 80, rateSpm: 28 },
          { restS: 40 },
        ],
      });
    return simulate({
      craft,
      seed,
      script: [
        ...[20, 24, 28, 32].flatMap((rate_spm) => [
          { do: 'row' as const, rate_spm, time_s: 150 },
          { do: 'rest' as const, time_s: 40 },
        ]),
        { do: 'row', rate_spm: 28, time_s: 80 },
        { do: 'row', rate_spm: 28, time_s: 40, strength: 0.75, label: 'weak' },
        { do: 'row', rate_spm: 28, time_s: 80 },
        { do: 'rest', time_s: 40 },
      ],
      sensors: { gnss: { hz: 1 } },
    });
  };

  it('are found where they were, and nothing else is', () => {
    for (const seed of [1, 2, 3, 4]) {
      const simulated = rowed(seed);
      const outing = trueOuting(simulated);
      const curve = curveOf(curveBlocks(outing), 'ground');
      if ('why' in curve) throw new Error(curve.why);
      const { off_curve } = piecesResultOf(outing, { kind: 'unaided' }, undefined, null, { curve });
      const weak = simulated.truth.stretches.find(({ label }) => label === 'weak')!;
      expect(off_curve).toHaveLength(1);
      const [row] = off_curve!;
      expect(row!.side).toBe('below');
      // a hull takes and loses its speed over some strokes
      expect(Math.abs(row!.start_at_s - weak.fromS)).toBeLessThan(6);
      expect(Math.abs(row!.end_at_s - weak.toS)).toBeLessThan(8);
    }
  });
});
