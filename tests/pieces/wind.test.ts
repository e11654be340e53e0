import { describe, expect, it } from 'vitest';
import { windOn } from '../../src/pieces/wind.js';

const from = (wind_mps: number | null, wind_from_deg: number | null) => ({ wind_mps, wind_from_deg });

describe('the wind on a piece', () => {
  it.each([
    [0, 0, 4, 0],
    [180, 0, -4, 0],
    [90, 0, 0, 4],
    [270, 0, 0, -4],
    [10, 40, 4 * Math.cos(Math.PI / 6), -2],
  ])('from %d degrees at a heading of %d', (fromDeg, headingDeg, head, cross) => {
    const wind = windOn(from(4, fromDeg), headingDeg);
    expect(wind.headwind_mps).toBeCloseTo(head, 9);
    expect(wind.crosswind_mps).toBeCloseTo(cross, 9);
  });

  it('is not known without its speed, its direction, or that of the piece', () => {
    const unknown = { headwind_mps: null, crosswind_mps: null };
    expect(windOn(null, 0)).toEqual(unknown);
    expect(windOn(from(null, 10), 0)).toEqual(unknown);
    expect(windOn(from(3, null), 0)).toEqual(unknown);
    expect(windOn(from(3, 10), null)).toEqual(unknown);
  });
});
