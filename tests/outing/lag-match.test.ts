import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { matchAt, matchAxes } from '../../src/outing/lag-match.js';

/** Three unlike signals. */
const axis = (k: number) =>
  Float64Array.from({ length: 400 }, (_, i) => Math.sin(0.13 * i + 2 * k) + Math.cos(0.031 * (k + 1) * i));
const axes = [axis(0), axis(1), axis(2)] as const;
const ready = matchAxes([...axes]);

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
        expect(matchAt(signal, 0, 200, ready, lag)).toBeGreaterThan(0.9);
      }),
      { numRuns: 50 },
    );
  });

  it('is small for a signal that the axes do not hold', () => {
    const strange = Float64Array.from({ length: 200 }, (_, i) => Math.sin(1.7 * i));
    expect(matchAt(strange, 0, 200, ready, 50)).toBeLessThan(0.05);
  });

  it('is not known beyond the axes', () => {
    const signal = new Float64Array(200).fill(1);
    expect(matchAt(signal, 0, 200, ready, -1)).toBeNull();
    expect(matchAt(signal, 0, 200, ready, 201)).toBeNull();
    expect(matchAt(signal, 0, 200, ready, 200)).not.toBeNull();
  });
});
