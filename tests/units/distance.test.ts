import { describe, expect, it } from 'vitest';
import { parseDistance } from '../../src/units/distance.js';

describe('a distance as people write it', () => {
  it.each([
    ['2000', 2000],
    [' 500 m ', 500],
    ['1.5km', 1500],
    ['9.5', 9.5],
  ])('%s is %d m', (text, metres) => {
    expect(parseDistance(text)).toBe(metres);
  });

  it.each(['', '0', '-5', '5 miles', '1:30', 'NaN'])('%s is none', (text) => {
    expect(() => parseDistance(text)).toThrow(/is not a distance: write metres/);
  });
});
