import { describe, expect, it } from 'vitest';
import { timingBoundS } from '../../accuracy/timing-bound.js';

describe('bound on the timing of a stroke', () => {
  it('Gaussian pulse of 5 m/s² and 0.1 s in noise of 0.5 m/s² at 50 Hz: 4.751 ms (computed from the formula)', () => {
    const pulse = Float64Array.from(
      { length: 101 },
      (_, i) => 5 * Math.exp(-0.5 * ((i - 50) / 50 / 0.1) ** 2),
    );
    // central differences at 50 Hz flatten the slope by 1 %
    expect(1000 * timingBoundS(pulse, 50, 0.5)).toBeGreaterThan(4.7);
    expect(1000 * timingBoundS(pulse, 50, 0.5)).toBeLessThan(4.9);
  });
});
