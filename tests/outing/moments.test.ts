import { describe, expect, it } from 'vitest';
import { momentsOf, stepsOf } from '../../src/outing/index.js';
import { evenStrokes, northTrack, outingOf } from './made-up.js';

const ROWED = { fromS: 30, toS: 90, rateSpm: 30 };

/** A boat at rest, then 5 m/s at 30 spm for a minute, then at rest again. */
const outing = (more: Parameters<typeof northTrack>[2] = {}) =>
  outingOf(
    northTrack((atS) => (atS >= 30 && atS < 90 ? 5 : 0), 120, more),
    evenStrokes([ROWED]),
  );

describe('moments of an outing', () => {
  const moments = momentsOf(outing(), { fromS: 0, toS: 120 });

  it('are one a stroke with its rate and mean speed, and one every few seconds between', () => {
    const rated = moments.filter(({ rate_spm }) => rate_spm !== null);
    // 30 strokes, of which the last before the stop has no rate.
    expect(rated).toHaveLength(29);
    for (const [i, { at_s, rate_spm, speed_mps, along_m }] of rated.entries()) {
      expect(at_s).toBeCloseTo(30 + 2 * i + 1, 6);
      expect(rate_spm).toBe(30);
      expect(speed_mps).toBeCloseTo(5, 1);
      expect(along_m).toBeCloseTo(5 * (2 * i + 1), 0);
    }
    const before = moments.filter(({ at_s }) => at_s < 27);
    expect(before.length).toBeGreaterThanOrEqual(6);
    for (const moment of before) expect(moment).toMatchObject({ rate_spm: null, speed_mps: 0, along_m: 0 });
  });

  it('are in order and add up to the way that was gone', () => {
    for (const [i, { at_s }] of moments.entries())
      if (i > 0) expect(at_s).toBeGreaterThan(moments[i - 1]!.at_s);
    expect(moments.at(-1)!.along_m).toBeCloseTo(300, 0);
  });

  it('know no speed where the track has an outage', () => {
    const without = momentsOf(outing({ outages: [{ fromS: 50.5, toS: 61.5 }] }), { fromS: 0, toS: 120 });
    for (const { at_s, speed_mps, along_m } of without)
      if (at_s > 50 && at_s < 62) expect([speed_mps, along_m]).toEqual([null, null]);
      else expect(speed_mps).not.toBeNull();
  });

  it('leave out a stroke that the end cuts, for half a stroke has another speed', () => {
    const cut = momentsOf(outing(), { fromS: 30, toS: 71.2 });
    expect(cut.at(-1)!.at_s).toBeCloseTo(69, 6);
  });

  it('say where the boat was only when asked', () => {
    expect(moments.every((moment) => !('east_m' in moment))).toBe(true);
    const placed = momentsOf(outing(), { fromS: 0, toS: 120 }, true);
    expect(placed.at(-1)!.north_m).toBeCloseTo(300, 0);
    expect(placed.at(-1)!.east_m).toBeCloseTo(0, 6);
  });

  it('come in steps of equal, round time that hold the whole outing', () => {
    const steps = stepsOf(outing());
    expect(steps.map(({ start_at_s, end_at_s }) => [start_at_s, end_at_s])).toEqual([
      [0, 60],
      [60, 120],
    ]);
    expect(steps.reduce((sum, { distance_m }) => sum + distance_m!, 0)).toBeCloseTo(300, 0);
  });
});
