import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hypotenuse } from '../../src/units/hypotenuse.js';

describe('the length of a hypotenuse', () => {
  it('is that of Math.hypot to the last bit', () => {
    const side = fc.oneof(
      fc.double({ min: -1e3, max: 1e3, noNaN: true }),
      fc.double({ noNaN: true, noDefaultInfinity: true }),
    );
    fc.assert(
      fc.property(side, side, (a, b) => {
        expect(hypotenuse(a, b)).toBe(Math.hypot(a, b));
      }),
      { numRuns: 2000 },
    );
  });

  it('is 5 for 3 and 4, and 0 for nothing', () => {
    expect(hypotenuse(-3, 4)).toBe(5);
    expect(hypotenuse(0, -0)).toBe(0);
  });
});
