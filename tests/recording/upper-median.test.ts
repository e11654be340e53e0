import fc from 'fast-check';
import { expect, it } from 'vitest';
import { upperMedian } from '../../src/recording/upper-median.js';

it('gives the value in the middle of the sorted ones', () => {
  const some = fc.oneof(
    fc.array(fc.double({ noNaN: true, noDefaultInfinity: true }), { minLength: 1, maxLength: 50 }),
    fc.array(fc.integer({ min: 0, max: 3 }), { minLength: 1, maxLength: 50 }),
  );
  fc.assert(
    fc.property(some, (values) => {
      const sorted = Float64Array.from(values).sort();
      expect(upperMedian(Float64Array.from(values)) - sorted[sorted.length >> 1]!).toBe(0);
    }),
    { numRuns: 500 },
  );
});
