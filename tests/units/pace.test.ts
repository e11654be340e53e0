import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatClock } from '../../src/units/clock-time.js';
import { type Pace, paceOf } from '../../src/units/pace.js';
import { formatSpeed, parseSpeed, speedOfSplit, splitOfSpeed } from '../../src/units/speed.js';

const NAMES: readonly (keyof Pace)[] = [
  'speedMps',
  'rateSpm',
  'distancePerStrokeM',
  'distanceM',
  'durationS',
  'strokeCount',
];

const whole = fc
  .record({
    speedMps: fc.double({ min: 0.5, max: 8, noNaN: true }),
    rateSpm: fc.double({ min: 10, max: 180, noNaN: true }),
    durationS: fc.double({ min: 10, max: 20_000, noNaN: true }),
  })
  .map(
    ({ speedMps, rateSpm, durationS }): Record<keyof Pace, number> => ({
      speedMps,
      rateSpm,
      durationS,
      distancePerStrokeM: (60 * speedMps) / rateSpm,
      distanceM: speedMps * durationS,
      strokeCount: (rateSpm * durationS) / 60,
    }),
  );

describe('pace', () => {
  it('gives distance per stroke: 5.0 m/s at 37.5 spm is 8 m', () => {
    // computed; about 8 m a stroke at race pace is common practice
    expect(paceOf({ speedMps: 5, distancePerStrokeM: 8 }).rateSpm).toBeCloseTo(37.5, 10);
    expect(paceOf({ speedMps: 5, rateSpm: 37.5 }).distancePerStrokeM).toBeCloseTo(8, 10);
  });

  it('gives the time over a distance: 5 m/s is 1:40.0 and 6:40 over 2000 m', () => {
    // British Rowing 2020
    const pace = paceOf({ speedMps: 5, distanceM: 2000 });
    expect(formatClock(splitOfSpeed(pace.speedMps!), 1)).toBe('1:40.0');
    expect(formatClock(pace.durationS!, 0)).toBe('6:40');
  });

  it('prints 119.96 s as 2:00.0', () => {
    expect(formatSpeed(speedOfSplit(119.96), 'split')).toBe('2:00.0');
  });

  it('comes back from any three that settle the rest', () => {
    // speed, rate and a length are three free choices; three quantities on one relation settle no more than it
    const bound: readonly string[] = [
      'distancePerStrokeM,rateSpm,speedMps',
      'distanceM,durationS,speedMps',
      'durationS,rateSpm,strokeCount',
      'distanceM,distancePerStrokeM,strokeCount',
    ];
    const triples = NAMES.flatMap((a, i) =>
      NAMES.slice(i + 1).flatMap((b, j) => NAMES.slice(i + j + 2).map((c) => [a, b, c])),
    ).filter((triple) => !bound.includes([...triple].sort().join(',')));
    expect(triples).toHaveLength(16);
    fc.assert(
      fc.property(whole, fc.constantFrom(...triples), (all, triple) => {
        const found = paceOf(Object.fromEntries(triple.map((name) => [name, all[name]])));
        for (const name of NAMES) expect(found[name]! / all[name]).toBeCloseTo(1, 9);
      }),
    );
  });

  it('comes back from how people write a speed', () => {
    fc.assert(
      fc.property(fc.integer({ min: 600, max: 6000 }), (tenths) => {
        const written = formatClock(tenths / 10, 1);
        expect(formatSpeed(parseSpeed(written), 'split')).toBe(written);
      }),
    );
  });

  it('leaves unknown what does not follow', () => {
    expect(paceOf({ speedMps: 4 })).toEqual({
      speedMps: 4,
      rateSpm: null,
      distancePerStrokeM: null,
      distanceM: null,
      durationS: null,
      strokeCount: null,
    });
  });

  it('says what contradicts what', () => {
    expect(() => paceOf({ speedMps: 5, rateSpm: 30, distancePerStrokeM: 9 })).toThrow(
      /a rate of 30.0 spm and 9.00 m per stroke make a split of 1:51.1 \(4.50 m\/s\), not a split of 1:40.0/,
    );
    // 30 spm and 10.02 m, written to two decimals, are near enough to 5 m/s
    expect(paceOf({ speedMps: 5, rateSpm: 30, distancePerStrokeM: 10.02 }).speedMps).toBe(5);
  });
});
