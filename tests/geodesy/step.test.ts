import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bearingOf, destination, geodesicBetween, placeAfter, stepBetween } from '../../src/geodesy/index.js';

const place = fc.record({
  latDeg: fc.double({ min: -70, max: 70, noNaN: true }),
  lonDeg: fc.double({ min: -180, max: 179.999, noNaN: true }),
});

describe('a step', () => {
  it('agrees with the geodesic to 9e-3 m up to 10 km, across the date line too', () => {
    fc.assert(
      fc.property(
        place,
        fc.double({ min: 0, max: 360, noNaN: true }),
        fc.double({ min: 1, max: 10_000, noNaN: true }),
        (from, bearing, metres) => {
          const to = destination(from, bearing, metres);
          const step = stepBetween(from, to);
          expect(
            Math.abs(Math.hypot(step.eastM, step.northM) - geodesicBetween(from, to).distanceM),
          ).toBeLessThan(9.5e-3);
        },
      ),
    );
  });

  it('leads back to where it came from', () => {
    fc.assert(
      fc.property(
        place,
        fc.double({ min: -3000, max: 3000, noNaN: true }),
        fc.double({ min: -3000, max: 3000, noNaN: true }),
        (from, eastM, northM) => {
          const step = stepBetween(from, placeAfter(from, { eastM, northM }));
          expect(step.eastM).toBeCloseTo(eastM, 4);
          expect(step.northM).toBeCloseTo(northM, 4);
        },
      ),
    );
  });

  it('has a bearing', () => {
    expect(bearingOf({ eastM: 0, northM: 1 })).toBe(0);
    expect(bearingOf({ eastM: -1, northM: 0 })).toBe(270);
  });
});
