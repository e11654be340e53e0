import { describe, expect, it } from 'vitest';
import { roundSplits } from '../../src/report/drawing/round-splits.js';

const splits = (fast: number, slow: number, lengthPx = 150) =>
  roundSplits([500 / slow, 500 / fast], lengthPx, 26).map(({ splitS }) => splitS);

describe('ticks of an axis of speed', () => {
  it('stand at round splits', () => {
    // 1:38 to 1:57: what a coach would write beside a graph (common practice).
    expect(splits(98, 117)).toEqual([115, 110, 105, 100]);
    // A start: 1:22 to 3:40.
    for (const splitS of splits(82, 220)) expect(splitS % 30).toBe(0);
    expect(splits(82, 220)).toContain(120);
  });

  it('name the speed of their split, from slow to fast, within the range and with room around each', () => {
    const ticks = roundSplits([0.2, 5.6], 200, 26);
    for (const [i, { splitS, speedMps }] of ticks.entries()) {
      expect(speedMps * splitS).toBeCloseTo(500, 9);
      expect(speedMps).toBeGreaterThanOrEqual(0.2);
      expect(speedMps).toBeLessThanOrEqual(5.6);
      if (i > 0) expect(speedMps - ticks[i - 1]!.speedMps).toBeGreaterThanOrEqual((26 * 5.4) / 200 - 1e-9);
    }
    expect(roundSplits([-1, 0], 100, 26)).toEqual([]);
  });
});
