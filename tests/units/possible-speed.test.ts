import { describe, expect, it } from 'vitest';
import { parseSpeed } from '../../src/units/speed.js';
import { paceResultOf } from '../../src/workout/index.js';

describe('what no craft does', () => {
  it.each(['1200km/h', '0:30', '30m/s'])('%s is refused with the limit', (text) => {
    expect(() => parseSpeed(text)).toThrow(/no craft is faster than 12 m\/s \(43\.2 km\/h, 0:41\.7/);
  });

  it('is refused where it follows from what was given', () => {
    expect(() => paceResultOf({ distanceM: 2000, durationS: 60 })).toThrow(/no craft is faster/);
    expect(() => paceResultOf({ speedMps: 5, rateSpm: 5 })).toThrow(/60 m, and no craft goes beyond/);
  });

  it('leaves the best there is: 8+ over 2000 m, K4 over 500 m', () => {
    // World best times as published by the two international federations: 5:18.68 (8+, 2017), 1:15.130 (K4, 2024);
    // values from memory.
    expect(paceResultOf({ distanceM: 2000, durationS: 318.68 }).pace!.speed_mps).toBeCloseTo(6.28, 2);
    expect(paceResultOf({ distanceM: 500, durationS: 75.13 }).pace!.speed_mps).toBeCloseTo(6.655, 2);
  });
});
