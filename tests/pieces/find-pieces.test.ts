import { describe, expect, it } from 'vitest';
import { openOuting } from '../../src/outing/index.js';
import { findPieces, pieceRow } from '../../src/pieces/index.js';
import { evenStrokes, northTrack, outingOf } from '../outing/made-up.js';
import { type Aboard, race, sixPieces, type Which } from './simulated.js';
import { trueOuting } from './true-outing.js';

const WHICH: readonly Which[] = ['dynamic', 'kinematic'];
const codes = (warnings: readonly { readonly code: string }[]) => warnings.map(({ code }) => code);

describe.each(WHICH)('pieces in a %s simulation, motion and strokes perfect', (which) => {
  const aboard: Aboard = { seed: 3, imu: false };

  it('are found unaided between rests, after a light row', () => {
    const simulated = sixPieces(which, aboard);
    const { pieces, warnings } = findPieces(trueOuting(simulated), { kind: 'unaided' });
    const wanted = simulated.truth.stretches.filter(({ label }) => label === 'piece');
    expect(pieces).toHaveLength(6);
    pieces.forEach((piece, i) => {
      expect(Math.abs(piece.fromS - wanted[i]!.fromS)).toBeLessThan(2);
      expect(Math.abs(piece.toS - wanted[i]!.toS)).toBeLessThan(2.5);
    });
    expect(codes(warnings)).toEqual(['light-rowing-left-out']);
  });

  it('of an asked length are found in spite of straightening strokes', () => {
    const simulated = race(which, aboard);
    const { truth } = simulated;
    const { pieces } = findPieces(trueOuting(simulated), { kind: 'distance', metres: 1500 });
    const begin = truth.stretches.find(({ label }) => label === 'race')!;
    expect(pieces).toHaveLength(1);
    expect(pieces[0]).toMatchObject({ start: 'standing', outcome: 'complete' });
    expect(Math.abs(pieces[0]!.fromS - begin.fromS)).toBeLessThan(1);
    const first = truth.catchMarksS.find((atS) => atS > begin.fromS - 1)!;
    expect(Math.abs(pieces[0]!.strokesFromS - first)).toBeLessThan(0.6);
  });
});

describe.each(WHICH)('pieces in a %s simulation, from a track and an IMU log', (which) => {
  it('are found unaided, all six, their borders within 4 s', () => {
    const simulated = sixPieces(which, { seed: 4, imu: true });
    const outing = openOuting([simulated.track!, simulated.imu!], { craft: '2x', placement: 'hull' });
    const { pieces } = findPieces(outing, { kind: 'unaided' });
    const wanted = simulated.truth.stretches.filter(({ label }) => label === 'piece');
    expect(pieces).toHaveLength(6);
    pieces.forEach((piece, i) => {
      expect(Math.abs(piece.fromS - wanted[i]!.fromS)).toBeLessThan(4);
      expect(Math.abs(piece.toS - wanted[i]!.toS)).toBeLessThan(4);
    });
  });

  it('of 1500 m begin at the standing start, and their strokes are counted within 1 or said to be missing', () => {
    const simulated = race(which, { seed: 4, imu: true });
    const outing = openOuting([simulated.track!, simulated.imu!], { craft: '2x', placement: 'hull' });
    const { pieces, warnings } = findPieces(outing, { kind: 'distance', metres: 1500 });
    expect(pieces).toHaveLength(1);
    const row = pieceRow(outing, pieces[0]!, 1);
    expect(row).toMatchObject({ start: 'standing', outcome: 'complete', distance_m: 1500 });
    const marks = simulated.truth.catchMarksS.filter(
      (atS) => atS > row.start_at_s - 0.6 && atS < row.end_at_s,
    );
    if (row.stroke_count === null) expect(codes(warnings)).toContain('strokes-missing');
    else expect(Math.abs(row.stroke_count - marks.length)).toBeLessThanOrEqual(1);
  });
});

/** Light at 18, hard at 28 and 5 m/s, light again, never a rest; 30 s of rest at both ends. */
const stepped = (atS: number) => (atS < 30 || atS > 630 ? 0 : atS < 230 || atS >= 430 ? 3.6 : 5);
const steppedOuting = outingOf(
  northTrack(stepped, 660),
  evenStrokes([
    { fromS: 30, toS: 230, rateSpm: 18 },
    { fromS: 230, toS: 430, rateSpm: 28 },
    { fromS: 430, toS: 630, rateSpm: 18 },
  ]),
);

describe('pieces', () => {
  it('are cut where rate and speed step together, and start rolling there', () => {
    const { pieces, warnings } = findPieces(steppedOuting, { kind: 'unaided' });
    expect(pieces).toHaveLength(1);
    expect(pieces[0]).toMatchObject({ start: 'rolling', outcome: null });
    expect(Math.abs(pieces[0]!.fromS - 230)).toBeLessThan(4);
    expect(Math.abs(pieces[0]!.toS - 430)).toBeLessThan(4);
    expect(warnings[0]!.message).toMatch(/3:2\d at 18 spm, 3:\d\d at 18 spm/);
  });

  it('of a ladder without rests are its steps', () => {
    const rates = [18, 20, 22, 24];
    const speed = (rate: number) => 4 * (rate / 18) ** (1 / 3);
    const ladder = outingOf(
      northTrack((atS) => (atS < 720 ? speed(rates[Math.floor(atS / 180)]!) : 0), 750),
      evenStrokes(rates.map((rateSpm, i) => ({ fromS: 180 * i, toS: 180 * (i + 1), rateSpm }))),
    );
    const { pieces } = findPieces(ladder, { kind: 'unaided' });
    expect(pieces.map(({ fromS }) => Math.round(fromS / 10))).toEqual([0, 18, 36, 54]);
  });

  it('keep a race whole, its start and its sprint included', () => {
    const rateAt = [
      { fromS: 30, toS: 50, rateSpm: 42 },
      { fromS: 50, toS: 380, rateSpm: 34 },
      { fromS: 380, toS: 420, rateSpm: 39 },
    ];
    const speed = (atS: number) => (atS < 30 || atS > 420 ? 0 : atS < 50 ? 5.4 : atS < 380 ? 5 : 5.3);
    const { pieces } = findPieces(outingOf(northTrack(speed, 450), evenStrokes(rateAt)), { kind: 'unaided' });
    expect(pieces).toHaveLength(1);
    expect(pieces[0]!.toS - pieces[0]!.fromS).toBeCloseTo(390, 0);
  });

  it('that end before their length stop short, timed to the last stroke', () => {
    const short = outingOf(
      northTrack((atS) => (atS < 30 || atS > 230 ? 0 : 4), 300),
      evenStrokes([{ fromS: 30, toS: 230, rateSpm: 30 }]),
    );
    const { pieces } = findPieces(short, { kind: 'distance', metres: 1000 });
    expect(pieces).toHaveLength(1);
    expect(pieces[0]).toMatchObject({ outcome: 'stopped_short', start: 'standing' });
    expect(pieces[0]!.toS).toBeCloseTo(230, 0);
    const timed = findPieces(short, { kind: 'time', seconds: 240 }).pieces;
    expect(timed).toMatchObject([{ outcome: 'stopped_short' }]);
    const rowed = findPieces(short, { kind: 'time', seconds: 200 }).pieces[0]!;
    expect(rowed.outcome).toBe('complete');
    expect(rowed.toS - rowed.fromS).toBe(200);
  });

  it('that nobody rowed are not made up', () => {
    const none = findPieces(steppedOuting, { kind: 'distance', metres: 20_000 });
    expect(none.pieces).toEqual([]);
    expect(codes(none.warnings)).toEqual(['no-such-piece']);
    expect(codes(findPieces(outingOf(null, null), { kind: 'unaided' }).warnings)).toEqual(['rowing-unknown']);
    expect(codes(findPieces(steppedOuting, { kind: 'laps' }).warnings)).toEqual(['no-laps']);
  });

  it('lie between the moments that are told, if those lie in the log', () => {
    const { pieces } = findPieces(steppedOuting, { kind: 'between', fromS: 100, toS: null });
    expect(pieces).toMatchObject([{ fromS: 100, toS: 660, start: 'rolling', outcome: null }]);
    expect(() => findPieces(steppedOuting, { kind: 'between', fromS: 300, toS: 200 })).toThrow(
      /the earlier first/,
    );
    expect(() => findPieces(steppedOuting, { kind: 'between', fromS: 0, toS: 900 })).toThrow(
      /lasts 660\.0 s/,
    );
  });

  it('without positions are told by strokes alone', () => {
    const { pieces } = findPieces({ ...steppedOuting, track: null }, { kind: 'unaided' });
    expect(pieces).toHaveLength(1);
    expect(pieceRow({ ...steppedOuting, track: null }, pieces[0]!, 1)).toMatchObject({
      distance_m: null,
      speed_mps: null,
      parts: [],
    });
  });

  it('say where strokes are missing though the boat was under way, and do not count them', () => {
    const holed = outingOf(
      northTrack((atS) => (atS < 30 || atS > 330 ? 0 : 4), 400),
      evenStrokes([
        { fromS: 30, toS: 150, rateSpm: 30 },
        { fromS: 180, toS: 330, rateSpm: 30 },
      ]),
    );
    const { pieces, warnings } = findPieces(holed, { kind: 'unaided' });
    expect(pieces).toHaveLength(1);
    expect(codes(warnings)).toEqual(['strokes-missing']);
    const row = pieceRow(holed, pieces[0]!, 1);
    expect(row.stroke_count).toBeNull();
    expect(row.rate_spm).toBeCloseTo(30, 6);
  });
});
