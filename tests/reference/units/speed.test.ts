import { describe, expect, it } from 'vitest';
import { formatClock } from '../../../src/units/clock-time.js';
import { formatSpeed, MPS_PER_KNOT, speedOfSplit } from '../../../src/units/speed.js';

describe('conversions against outside values', () => {
  it('one knot is 1852 m in an hour (international nautical mile, BIPM SI brochure)', () => {
    expect(MPS_PER_KNOT).toBe(1852 / 3600);
  });

  it('5 m/s is 1:40.0, and 6:40 over 2000 m (British Rowing 2020)', () => {
    expect(formatSpeed(5, 'split')).toBe('1:40.0');
    expect(formatClock(2000 / 5, 0)).toBe('6:40');
  });

  // Computed from the definitions of split, km/h and knot.
  it.each([
    [80, 6.25, 22.5, 12.149, '5:20.0'],
    [110, 4.54545, 16.3636, 8.8357, '7:20.0'],
    [125, 4.0, 14.4, 7.7754, '8:20.0'],
  ])('split %d s', (splitS, mps, kmh, knots, over2000m) => {
    const speed = speedOfSplit(splitS);
    expect(speed).toBeCloseTo(mps, 5);
    expect(speed * 3.6).toBeCloseTo(kmh, 4);
    expect(speed / MPS_PER_KNOT).toBeCloseTo(knots, 4);
    expect(formatClock(2000 / speed, 1)).toBe(over2000m);
  });

  it('the mean split of equal distances is the mean of splits, of equal times it is not (arithmetic)', () => {
    expect((100 + 120) / 2).toBe(110);
    expect(500 / ((speedOfSplit(100) + speedOfSplit(120)) / 2)).toBeCloseTo(109.09, 2);
  });

  it('8 m a stroke at 5.0 m/s is 37.5 spm (common practice for the 8 m, arithmetic for the rest)', () => {
    expect((60 * 5) / 8).toBe(37.5);
  });
});
