import fc from 'fast-check';
import { expect, it } from 'vitest';
import { areFinite } from '../../src/units/are-finite.js';

it('says what a look at each value says', () => {
  const value = fc.oneof(
    { weight: 30, arbitrary: fc.double({ noNaN: true, noDefaultInfinity: true }) },
    { weight: 1, arbitrary: fc.constantFrom(Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY) },
  );
  fc.assert(
    fc.property(fc.array(value, { maxLength: 20 }), (values) => {
      expect(areFinite(Float64Array.from(values))).toBe(values.every(Number.isFinite));
    }),
    { numRuns: 1000 },
  );
});
