import fc from 'fast-check';
import { expect, it } from 'vitest';
import { nthSmallest } from '../../src/units/nth-smallest.js';

it('gives what sorting would put at the place, with the smaller before it and the larger after', () => {
  const some = fc.oneof(
    fc.array(fc.double({ noNaN: true, noDefaultInfinity: true }), { minLength: 1, maxLength: 50 }),
    fc.array(fc.integer({ min: 0, max: 3 }), { minLength: 1, maxLength: 50 }),
  );
  fc.assert(
    fc.property(some, fc.nat(), (drawn, place) => {
      // A zero's sign has no place among equal values: selection and sorting may each put it where they like.
      const numbers = drawn.map((value) => value + 0);
      const wanted = place % numbers.length;
      const values = Float64Array.from(numbers);
      const found = nthSmallest(values, wanted);
      expect(found).toBe(Float64Array.from(numbers).sort()[wanted]);
      expect(values.subarray(0, wanted).every((value) => value <= found)).toBe(true);
      expect(values.subarray(wanted).every((value) => value >= found)).toBe(true);
      expect([...values].sort((a, b) => a - b)).toEqual([...numbers].sort((a, b) => a - b));
    }),
    { numRuns: 1000 },
  );
});
