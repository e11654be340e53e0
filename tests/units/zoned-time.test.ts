import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { zonedTime } from '../../src/units/zoned-time.js';

const wall = (unixS: number, zone: string): string =>
  new Date(unixS * 1000).toLocaleString('sv-SE', { timeZone: zone });

describe('a time of day in a zone', () => {
  it('is what the clocks there show, whatever the season and the side of the date line', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1_600_000_000, max: 1_900_000_000 }),
        fc.constantFrom('Europe/Zurich', 'America/St_Johns', 'Pacific/Apia', 'Asia/Kathmandu', 'UTC'),
        (unixS, zone) => {
          const wallS = Date.parse(`${wall(unixS, zone).replace(' ', 'T')}Z`) / 1000;
          // One wall time of a year is shown twice: of that the first is meant.
          expect(wall(zonedTime(wallS, zone), zone)).toBe(wall(unixS, zone));
        },
      ),
    );
  });

  it('of an hour that is shown twice is the first, and of one that is left out the time after the change', () => {
    // Central Europe changes on 25 October 2026 at 01:00 UTC and on 29 March 2026 at 01:00 UTC (Directive 2000/84/EC).
    expect(zonedTime(Date.UTC(2026, 9, 25, 2, 30) / 1000, 'Europe/Zurich')).toBe(
      Date.UTC(2026, 9, 25, 0, 30) / 1000,
    );
    expect(zonedTime(Date.UTC(2026, 2, 29, 2, 30) / 1000, 'Europe/Zurich')).toBe(
      Date.UTC(2026, 2, 29, 0, 30) / 1000,
    );
  });
});
