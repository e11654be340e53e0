import { describe, expect, it } from 'vitest';
import { theilSen } from '../../../src/signal/theil-sen.js';

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

  it("gives the slope of Sen's own example", () => {
    // Sen 1968, JASA 63:1379-1389, section 7: x 1 2 3 4 10 12 18, y 9 15 19 20 45 55 78, slope 4, value from memory
    const line = theilSen([1, 2, 3, 4, 10, 12, 18], [9, 15, 19, 20, 45, 55, 78])!;
    expect(line.slope).toBeCloseTo(4, 10);
  });

  it('knows no slope where all x are equal', () => {
    expect(theilSen([3, 3, 3], [1, 2, 3])).toBeNull();
  });
});
