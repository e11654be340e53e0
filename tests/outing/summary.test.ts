import { describe, expect, it } from 'vitest';
import { outingRow } from '../../src/contract/outing.js';
import { rateBands } from '../../src/outing/rate-bands.js';
import { summarise } from '../../src/outing/summary.js';
import { evenStrokes, northTrack, outingOf } from './made-up.js';

const RUNS = [
  { fromS: 0, toS: 300, rateSpm: 20 },
  { fromS: 400, toS: 520, rateSpm: 30 },
];
const speed = (at: number) => (at < 300 ? 4 : at < 400 ? 0.3 : at < 520 ? 5 : 0);
const outing = outingOf(northTrack(speed, 600), evenStrokes(RUNS));

describe('the summary of an outing', () => {
  it('tells rowing from drifting by the strokes', () => {
    const { row, warnings } = summarise(outing, { pieceCount: 2 });
    expect(outingRow.parse(row)).toEqual(row);
    expect(row.rowing_s).toBeCloseTo(420, 6);
    expect(row.distance_m).toBeCloseTo(1800, -1);
    expect(row.over_ground_m).toBeCloseTo(1830, -1);
    expect(row.drift_m).toBeCloseTo(30, 0);
    expect(row.stroke_count).toBe(160);
    // 99 intervals of 3 s and 59 of 2 s; the rest between is no part of a rate.
    expect(row.rate_spm).toBeCloseTo((60 * 158) / (99 * 3 + 59 * 2), 6);
    expect(row.distance_per_stroke_m).toBeCloseTo((60 * row.speed_mps!) / row.rate_spm!, 9);
    expect(row.speed_over).toBe('ground');
    expect(row.best.map((best) => best.asked_m)).toEqual([500, 1000]);
    expect(warnings.map(({ code }) => code)).toEqual(['best-is-fast']);
  });

  it('goes through the water where the stream is known', () => {
    const { row } = summarise({ ...outing, stream: { speedMps: 0.5, toDeg: 0 } }, { pieceCount: null });
    expect(row.speed_over).toBe('water');
    expect(row.speed_mps).toBeCloseTo(1800 / 420 - 0.5, 1);
    expect(row.distance_m).toBeCloseTo(1800, -1);
  });

  it('keeps the length of rowing that ends after the last fix', () => {
    const cut = outingOf(
      northTrack(() => 4, 200),
      evenStrokes([{ fromS: 0, toS: 202, rateSpm: 20 }]),
    );
    expect(summarise(cut, { pieceCount: null }).row.distance_m).toBeCloseTo(800, -1);
  });

  it('says that rowing was told from movement where there are no strokes', () => {
    const { row, warnings } = summarise(outingOf(northTrack(speed, 600), null), { pieceCount: null });
    expect(row.rowing_s).toBeCloseTo(420, 0);
    expect([row.stroke_count, row.rate_spm, row.distance_per_stroke_m]).toEqual([null, null, null]);
    expect(row.rate_bands).toEqual([]);
    expect(warnings.map(({ code }) => code)).toContain('rowing-from-movement');
  });

  it('leaves unknown what neither strokes nor positions tell', () => {
    const { row, warnings } = summarise(outingOf(null, null), { pieceCount: null });
    expect([row.rowing_s, row.distance_m, row.over_ground_m, row.speed_mps]).toEqual([
      null,
      null,
      null,
      null,
    ]);
    expect(warnings.map(({ code }) => code)).toEqual(['rowing-unknown']);
  });

  it('warns of speeds that no crew has', () => {
    const car = outingOf(
      northTrack(() => 14, 600),
      null,
    );
    expect(summarise(car, { pieceCount: null }).warnings.map(({ code }) => code)).toContain(
      'speed-not-believable',
    );
  });
});

describe('rate bands', () => {
  it('hold every stroke once; those without a rate in a row without bounds', () => {
    const bands = rateBands(outing);
    expect(bands.map((band) => band.stroke_count)).toEqual([0, 99, 0, 0, 59, 0, 2]);
    expect(bands.map(({ from_spm, to_spm }) => [from_spm, to_spm])).toEqual([
      [null, 18],
      [18, 22],
      [22, 26],
      [26, 30],
      [30, 34],
      [34, null],
      [null, null],
    ]);
    expect(bands[1]!.rowing_s).toBeCloseTo(297, 6);
    expect(bands[4]!.distance_m).toBeCloseTo(590, 6);
    expect(bands.reduce((sum, band) => sum + band.share_pct!, 0)).toBeCloseTo(100, 9);
    expect(bands[1]!.speed_variation).toBeCloseTo(0.1, 9);
    expect(bands[1]!.extra_drag_power_pct).toBeCloseTo(5, 9);
    expect(bands[0]).toMatchObject({ speed_variation: null, extra_drag_power_pct: null });
  });

  it('take the bounds that the user gives, if they rise', () => {
    expect(rateBands(outing, [25]).map((band) => band.stroke_count)).toEqual([99, 59, 2]);
    expect(() => rateBands(outing, [24, 20])).toThrow(/rising bounds/);
  });
});
