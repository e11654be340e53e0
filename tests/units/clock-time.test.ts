import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatClock, parseClock } from '../../src/units/clock-time.js';

describe('formatClock', () => {
  it('carries a rounded second into the minute', () => {
    expect(formatClock(119.96, 1)).toBe('2:00.0');
    expect(formatClock(59.999, 2)).toBe('1:00.00');
    expect(formatClock(3599.96, 1)).toBe('1:00:00.0');
  });

  it('writes hours only where there are any', () => {
    expect(formatClock(110.4, 1)).toBe('1:50.4');
    expect(formatClock(3723, 0)).toBe('1:02:03');
    expect(formatClock(0, 1)).toBe('0:00.0');
  });

  it('writes the sign of a difference, and none for nothing', () => {
    expect(formatClock(-1.25, 1)).toBe('-0:01.3');
    expect(formatClock(-0.01, 1)).toBe('0:00.0');
  });
});

describe('parseClock', () => {
  it('reads what people write', () => {
    expect(parseClock('1:50.4')).toBeCloseTo(110.4, 9);
    expect(parseClock('1:02:03')).toBe(3723);
    expect(parseClock('110')).toBe(110);
    expect(parseClock('110s')).toBe(110);
    expect(parseClock('20min')).toBe(1200);
    expect(parseClock('1h')).toBe(3600);
  });

  it('refuses what is not a length of time', () => {
    for (const text of ['', '1:60', '1:75:00', 'abc', '1:5', '-3', '1:2:3', '5 m'])
      expect(parseClock(text), text).toBeNull();
  });

  it('reads back what formatClock wrote, to half its last digit', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1e6, noNaN: true }),
        fc.integer({ min: 0, max: 3 }),
        (seconds, decimals) => {
          expect(Math.abs(parseClock(formatClock(seconds, decimals))! - seconds)).toBeLessThanOrEqual(
            0.5 * 10 ** -decimals + 1e-9,
          );
        },
      ),
    );
  });
});
