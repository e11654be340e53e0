import { describe, expect, it } from 'vitest';
import { decimalsOf, settle } from '../../src/contract/decimals.js';

describe('decimals', () => {
  it('go by the longest ending of the key', () => {
    expect(decimalsOf('duration_s')).toBe(3);
    expect(decimalsOf('split_s_per_500m')).toBe(2);
    expect(decimalsOf('distance_m')).toBe(2);
    expect(decimalsOf('distance_per_stroke_m')).toBe(3);
    expect(decimalsOf('stroke')).toBeNull();
  });

  it('give an sd the digits of its neighbour', () => {
    expect(decimalsOf('duration_sd_s')).toBe(decimalsOf('duration_s'));
    expect(decimalsOf('distance_sd_m')).toBe(decimalsOf('distance_m'));
  });

  it('round a whole result once, leave unknowns and text alone, and never write minus zero', () => {
    expect(settle({ a: [{ duration_s: 1.23456, crew: 'x', rate_spm: null }], drift_m: -0.0001 })).toEqual({
      a: [{ duration_s: 1.235, crew: 'x', rate_spm: null }],
      drift_m: 0,
    });
  });

  it('refuse what is not a number', () => {
    expect(() => settle({ duration_s: Number.NaN })).toThrow('must be null');
  });
});
