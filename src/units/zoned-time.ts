const formats = new Map<string, Intl.DateTimeFormat>();

const formatOf = (zone: string): Intl.DateTimeFormat => {
  const known = formats.get(zone);
  if (known !== undefined) return known;
  const made = new Intl.DateTimeFormat('en-GB', {
    timeZone: zone,
    hourCycle: 'h23',
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
    second: '2-digit',
  });
  formats.set(zone, made);
  return made;
};

/** What clocks of a zone are ahead of UTC at an instant, s. */
const aheadS = (unixS: number, zone: string): number => {
  const parts = Object.fromEntries(
    formatOf(zone)
      .formatToParts(unixS * 1000)
      .map(({ type, value }) => [type, Number(value)]),
  ) as Record<string, number>;
  const { year, month, day, hour, minute, second } = parts;
  return Date.UTC(year!, month! - 1, day!, hour, minute, second) / 1000 - Math.floor(unixS);
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
