import { describe, expect, it } from 'vitest';
import { clockOf, lineThrough, onLine } from '../../src/outing/offset-line.js';

describe('the line through offsets', () => {
  it('holds against a wild window (Theil-Sen of x 1…10, slope 2.0142857; computed from the formula)', () => {
    const y = [2.1, 3.9, 6.2, 7.8, 10.1, 12.2, 13.8, 16.1, 18.0, 60.0];
    const line = lineThrough(
      y.map((value, i) => [i + 1, value] as const),
      0,
    );
    expect(line.slope).toBeCloseTo(2.0142857, 6);
    expect(onLine(line, 5)).toBeCloseTo(10.1, 0);
  });

  it('means a clock: a log begun at 37 s whose clock runs 200 ppm fast', () => {
    const [startS, drift] = [37, 200e-6];
    // At main time t the log says u = (t - start)(1 + drift); its offset there is t - u.
    const points = [100, 400, 900, 1600].map((t) => [t, t - (t - startS) * (1 + drift)] as const);
    const clock = clockOf(lineThrough(points, 0));
    expect(clock.offsetS).toBeCloseTo(37, 6);
    expect(clock.driftPpm).toBeCloseTo(200, 3);
  });
});
