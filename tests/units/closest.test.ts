import { describe, expect, it } from 'vitest';
import { closest } from '../../src/units/closest.js';

describe('the closest word', () => {
  it('sees through swaps, gaps and letters too many', () => {
    expect(closest('naem', ['name', 'min'])).toBe('name');
    expect(closest('distnce_m', ['duration_s', 'distance_m'])).toBe('distance_m');
    expect(closest('MAX', ['min', 'max'])).toBe('max');
  });

  it('sees a word that was cut short', () => {
    expect(closest('rate', ['part', 'rate_spm'])).toBe('rate_spm');
  });

  it('is none where nothing is near', () => {
    expect(closest('stream', ['name', 'min'])).toBeNull();
    expect(closest('x', [])).toBeNull();
  });
});
