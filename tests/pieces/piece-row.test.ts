import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pieceRow as pieceShape } from '../../src/contract/pieces.js';
import { findPieces, type PartAsk, pieceRow } from '../../src/pieces/index.js';
import { evenStrokes, northTrack, outingOf } from '../outing/made-up.js';

const speed = (atS: number) => 4 + 0.5 * Math.sin(atS / 40);
const RUNS = [{ fromS: 0, toS: 600, rateSpm: 24 }];
const heart = {
  atS: Float64Array.from({ length: 600 }, (_, i) => i),
  columns: [Float64Array.from({ length: 600 }, (_, i) => 120 + i / 10)],
};
const outing = outingOf(northTrack(speed, 600), evenStrokes(RUNS), { channels: { heart_rate: heart } });

const rowOf = (fromS: number, toS: number, parts?: PartAsk, of = outing) =>
  pieceRow(of, findPieces(of, { kind: 'between', fromS, toS }).pieces[0]!, 1, parts);
const sum = (values: readonly (number | null)[]) =>
  values.reduce<number>((total, value) => total + value!, 0);

describe('the row of a piece', () => {
  it('holds its contract, with rate, distance per stroke and heart rate of its own strokes', () => {
    const row = rowOf(100, 400);
    expect(pieceShape.parse(row)).toEqual(row);
    expect(row.stroke_count).toBe(120);
    expect(row.rate_spm).toBeCloseTo(24, 9);
    expect(row.distance_per_stroke_m).toBeCloseTo((60 * row.speed_mps!) / 24, 9);
    expect(row.split_s_per_500m).toBeCloseTo(500 / row.speed_mps!, 9);
    expect(row.heart_rate_mean_bpm).toBeCloseTo(144.95, 1);
    expect(row.heart_rate_max_bpm).toBeCloseTo(159.9, 6);
    expect(row.heading_deg).toBeCloseTo(0, 3);
    expect(row.parts).toHaveLength(5);
  });

  it('means its common target: 5.0 m/s at 37.5 a minute is 8 m a stroke (common practice)', () => {
    const fast = outingOf(
      northTrack(() => 5, 300),
      evenStrokes([{ fromS: 0, toS: 300, rateSpm: 37.5 }]),
    );
    expect(rowOf(10, 250, undefined, fast).distance_per_stroke_m).toBeCloseTo(8, 6);
  });

  it('has parts that sum to it, by distance, by time and by metres', () => {
    const part = fc.oneof(
      fc.record({
        by: fc.constantFrom('distance' as const, 'time' as const),
        count: fc.integer({ min: 1, max: 12 }),
      }),
      fc.record({
        by: fc.constant('metres' as const),
        everyM: fc.double({ min: 30, max: 900, noNaN: true }),
      }),
    );
    const moment = fc.double({ min: 0, max: 250, noNaN: true });
    fc.assert(
      fc.property(moment, moment, part, (fromS, moreS, ask) => {
        const toS = fromS + 50 + moreS;
        const row = rowOf(fromS, toS, ask);
        expect(sum(row.parts.map(({ duration_s }) => duration_s))).toBeCloseTo(row.duration_s, 6);
        expect(sum(row.parts.map(({ distance_m }) => distance_m))).toBeCloseTo(row.distance_m!, 4);
        expect(sum(row.parts.map(({ stroke_count }) => stroke_count))).toBe(row.stroke_count);
        expect(row.parts.at(-1)!.cumulative_s).toBeCloseTo(row.duration_s, 6);
        expect(row.parts.at(-1)!.to_along_m).toBeCloseTo(row.distance_m!, 4);
        row.parts.slice(1).forEach((later, i) => {
          expect(later.from_along_m).toBe(row.parts[i]!.to_along_m);
        });
      }),
      { numRuns: 100 },
    );
  });

  it('has equal shares, and a remainder where metres do not come out even', () => {
    const byDistance = rowOf(0, 500).parts.map(({ distance_m }) => distance_m!);
    for (const length of byDistance) expect(length).toBeCloseTo(byDistance[0]!, 6);
    const byTime = rowOf(0, 500, { by: 'time', count: 4 }).parts;
    for (const { duration_s } of byTime) expect(duration_s).toBeCloseTo(125, 9);
    const lengths = rowOf(0, 500, { by: 'metres', everyM: 500 }).parts.map(({ distance_m }) => distance_m!);
    expect(lengths.slice(0, -1).every((length) => Math.abs(length - 500) < 1e-6)).toBe(true);
    expect(lengths.at(-1)).toBeLessThan(500);
  });

  it('does not change with the time at which it was rowed', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 200, noNaN: true }), (shiftS) => {
        const later = outingOf(
          northTrack((atS) => speed(atS - shiftS), 600 + shiftS),
          evenStrokes(RUNS.map((run) => ({ ...run, fromS: run.fromS + shiftS, toS: run.toS + shiftS }))),
        );
        const [here, there] = [rowOf(50, 350), rowOf(50 + shiftS, 350 + shiftS, undefined, later)];
        expect(there.duration_s).toBeCloseTo(here.duration_s, 6);
        expect(there.distance_m).toBeCloseTo(here.distance_m!, 1);
        expect(there.rate_spm).toBeCloseTo(here.rate_spm!, 6);
        expect(there.stroke_count).toBe(here.stroke_count);
      }),
      { numRuns: 30 },
    );
  });

  it('goes through the water where the stream is known', () => {
    const row = rowOf(100, 400, undefined, { ...outing, stream: { speedMps: 0.5, toDeg: 180 } });
    expect(row.speed_over).toBe('water');
    expect(row.speed_mps).toBeCloseTo(rowOf(100, 400).speed_mps! + 0.5, 6);
    expect(row.distance_m).toBe(rowOf(100, 400).distance_m);
  });

  it('asks for parts that can be made', () => {
    expect(() => rowOf(0, 100, { by: 'distance', count: 0 })).toThrow(/0 parts cannot be made/);
    expect(() => rowOf(0, 100, { by: 'metres', everyM: 0 })).toThrow(/above 0/);
    expect(() => rowOf(0, 590, { by: 'metres', everyM: 0.5 })).toThrow(/at most 1000/);
  });

  it('says how much of it and of each part was bridged between fixes, 0 where there are fixes throughout', () => {
    const bridges = [
      { fromS: 90, toS: 105 },
      { fromS: 240, toS: 260 },
    ];
    const bridged = { ...outing, track: { ...outing.track!, bridges } };
    const row = rowOf(100, 400, { by: 'time', count: 2 }, bridged);
    expect(row.bridged_s).toBeCloseTo(25, 6);
    expect(row.parts.map(({ bridged_s }) => bridged_s)).toEqual([15, 10]);
    expect(rowOf(100, 400).bridged_s).toBe(0);
  });
});
