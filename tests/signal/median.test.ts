import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { median, quantile, robustScale, runningMedian } from '../../src/signal/index.js';

const finite = fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e6, max: 1e6 });

describe('quantile', () => {
  it('agrees with sorting, for any values and any share', () => {
    fc.assert(
      fc.property(
        fc.array(fc.oneof(finite, fc.constantFrom(0, 1, 1, 2)), { minLength: 1, maxLength: 60 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (values, share) => {
          const sorted = [...values].sort((p, q) => p - q);
          const at = share * (sorted.length - 1);
          const low = Math.floor(at);
          const high = Math.min(low + 1, sorted.length - 1);
          const wanted = sorted[low]! + (at - low) * (sorted[high]! - sorted[low]!);
          expect(quantile(values, share)).toBeCloseTo(wanted, 6);
        },
      ),
    );
  });

  it('leaves its values as they are', () => {
    const values = Float64Array.of(3, 1, 2);
    expect(median(values)).toBe(2);
    expect([...values]).toEqual([3, 1, 2]);
  });
});

describe('robust scale', () => {
  it('is the standard deviation of normal values, and lets no outlier in', () => {
    // quantiles of the standard normal at 5 %, 15 % … 95 %: common tables
    const normal = [-1.6449, -1.0364, -0.6745, -0.3853, -0.1257, 0.1257, 0.3853, 0.6745, 1.0364, 1.6449];
    expect(robustScale(normal)).toBeGreaterThan(0.7);
    expect(robustScale(normal)).toBeLessThan(1.3);
    expect(robustScale([...normal.slice(0, 9), 1e6])).toBeLessThan(1.3);
  });
});

describe('running median', () => {
  it('takes out a lone outlier, and uses fewer values at the ends', () => {
    expect(runningMedian([1, 2, 90, 4, 5], 1)).toEqual([1.5, 2, 4, 5, 4.5]);
  });
});
