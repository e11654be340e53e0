const formats = new Map<string, Intl.DateTimeFormat>();

/** Making a format takes some milliseconds: once a zone. */
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

/**
 * What the calendars and clocks of a zone show at an instant: `year`, `month`, `day`, `hour`, `minute`, `second`,
 * each in digits as it is written.
 * @param unixMs milliseconds since 1970-01-01T00:00:00Z
 * @param zone IANA name
 */
export const zoneParts = (unixMs: number, zone: string): Readonly<Record<string, string>> =>
  Object.fromEntries(
    formatOf(zone)
      .formatToParts(unixMs)
      .map(({ type, value }) => [type, value]),
  );
