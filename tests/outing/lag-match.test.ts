import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isWithin, matchAt, matchAxes } from '../../src/outing/lag-match.js';
import { energyOf } from '../../src/signal/index.js';

/** Three unlike signals. */
const axis = (k: number) =>
  Float64Array.from({ length: 400 }, (_, i) => Math.sin(0.13 * i + 2 * k) + Math.cos(0.031 * (k + 1) * i));
const axes = [axis(0), axis(1), axis(2)] as const;
const ready = matchAxes([...axes]);
const match = (signal: Float64Array, lag: number) =>
  matchAt(signal, 0, 200, energyOf(signal, 0, 200), ready, lag);

describe('the match at a lag', () => {
  it('is nearly 1 where the signal is any mixture of the axes at that lag, whatever the mount', () => {
    const weight = fc.double({ min: -2, max: 2, noNaN: true });
    fc.assert(
      fc.property(weight, weight, weight, fc.integer({ min: 0, max: 150 }), (x, y, z, lag) => {
        fc.pre(Math.hypot(x, y, z) > 0.1);
        const signal = Float64Array.from(
          { length: 200 },
          (_, i) => x * axes[0][i + lag]! + y * axes[1][i + lag]! + z * axes[2][i + lag]!,
        );
        expect(match(signal, lag)).toBeGreaterThan(0.9);
      }),
      { numRuns: 50 },
    );
  });

  it('is small for a signal that the axes do not hold', () => {
    const strange = Float64Array.from({ length: 200 }, (_, i) => Math.sin(1.7 * i));
    expect(match(strange, 50)).toBeLessThan(0.05);
  });

  it('is not known beyond the axes', () => {
    expect(isWithin(ready, 0, 200, -1)).toBe(false);
    expect(isWithin(ready, 0, 200, 201)).toBe(false);
    expect(isWithin(ready, 0, 200, 200)).toBe(true);
  });
});
