import { zoneParts } from './zone-parts.js';

/** What clocks of a zone are ahead of UTC at an instant, s. */
const aheadS = (unixS: number, zone: string): number => {
  const { year, month, day, hour, minute, second } = zoneParts(unixS * 1000, zone);
  const dayMs = Date.UTC(
    Number(year),
    Number(month) - 1,
    Number(day),
    Number(hour),
    Number(minute),
    Number(second),
  );
  return dayMs / 1000 - Math.floor(unixS);
};

/**
 * The instant at which the clocks of a zone show a date and time.
 * @param wallS date and time as if it were UTC, seconds since 1970-01-01T00:00:00
 * @param zone IANA name
 * @returns seconds since 1970-01-01T00:00:00Z; of an hour that clocks show twice the first, and in one that they
 * leave out the time after the change
 */
export const zonedTime = (wallS: number, zone: string): number => {
  if (zone === 'UTC') return wallS;
  const before = wallS - aheadS(wallS - 86_400, zone);
  if (before + aheadS(before, zone) === wallS) return before;
  return wallS - aheadS(wallS + 86_400, zone);
};
