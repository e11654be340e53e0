import { describe, expect, it } from 'vitest';
import { theilSen } from '../../../src/signal/theil-sen.js';

/** Half width in sd (90, 95 and 98 %), and the bounds. */
const SCIPY = [
  [1.644854, 1.9666667, 2.2],
  [1.959964, 1.95, 2.3],
  [2.326348, 1.95, 6.4333333],
] as const;

describe('Theil-Sen', () => {
  it('is not moved by one wild point', () => {
    // computed with SciPy 1.17 (scipy.stats.theilslopes); least squares gives 4.1781818
    const x = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];
    const y = [2.1, 3.9, 6.2, 7.8, 10.1, 12.2, 13.8, 16.1, 18.0, 60.0];
    const line = theilSen(x, y)!;
    expect(line.slope).toBeCloseTo(2.0142857, 7);
    expect(line.slopeLow).toBeLessThan(2.0142857);
    expect(line.slopeHigh).toBeGreaterThan(2.0142857);
  });

  it("gives slope and interval of Sen's own example", () => {
    // Sen 1968, JASA 63:1379-1389: slope 4 and its 93 % interval 3.71 to 4.38, as SciPy's own tests cite it
    // (scipy/stats/tests/test_stats.py, test_theilslopes: decimal=2); 93 % two-sided are 1.8119 sd
    const line = theilSen([1, 2, 3, 4, 10, 12, 18], [9, 15, 19, 20, 45, 55, 78], 1, 1.8119)!;
    expect(line.slope).toBeCloseTo(4, 10);
    expect(line.slopeLow).toBeCloseTo(3.71, 2);
    expect(line.slopeHigh).toBeCloseTo(4.38, 2);
  });

  it('gives the intervals of a reference library at other levels', () => {
    // computed with SciPy 1.17: scipy.stats.theilslopes(y, x, alpha) over the ten points of the first check
    const x = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];
    const y = [2.1, 3.9, 6.2, 7.8, 10.1, 12.2, 13.8, 16.1, 18.0, 60.0];
    for (const [sds, low, high] of SCIPY) {
      const line = theilSen(x, y, 1, sds)!;
      expect(line.slopeLow).toBeCloseTo(low, 6);
      expect(line.slopeHigh).toBeCloseTo(high, 6);
    }
  });

  it('knows no slope where all x are equal', () => {
    expect(theilSen([3, 3, 3], [1, 2, 3])).toBeNull();
  });
});
