const formats = new Map<string, Intl.DateTimeFormat>();

const DAY_S = 86_400;

/** How far a zone's clocks are ahead of UTC at an instant, s. */
const zoneOffsetS = (unixS: number, zone: string): number => {
  let format = formats.get(zone);
  if (format === undefined) {
    format = new Intl.DateTimeFormat('en-GB', {
      timeZone: zone,
      hourCycle: 'h23',
      year: 'numeric',
      month: 'numeric',
      day: 'numeric',
      hour: 'numeric',
      minute: 'numeric',
      second: 'numeric',
    });
    formats.set(zone, format);
  }
  const whole = Math.floor(unixS);
  const part = Object.fromEntries(
    format.formatToParts(whole * 1000).map(({ type, value }) => [type, Number(value)]),
  );
  const local = Date.UTC(part.year!, part.month! - 1, part.day!, part.hour!, part.minute!, part.second!);
  return local / 1000 - whole;
};

/**
 * Read a time of day, as `18:05` or `18:05:30.5`.
 * @returns seconds since midnight, or null where the text is none
 */
export const parseTimeOfDay = (text: string): number | null => {
  const found = /^(\d{1,2}):(\d{2})(?::(\d{2}(?:\.\d+)?))?$/.exec(text.trim());
  if (found === null) return null;
  const [hours, minutes, seconds] = [Number(found[1]), Number(found[2]), Number(found[3] ?? 0)];
  return hours > 23 || minutes > 59 || seconds >= 60 ? null : hours * 3600 + minutes * 60 + seconds;
};

/**
 * The first instant at or after another at which the clocks of a zone show a time of day.
 * @param afterUnixS seconds since 1970-01-01T00:00:00Z
 * @param ofDayS seconds since midnight
 * @param zone IANA name
 * @returns seconds since 1970-01-01T00:00:00Z
 */
export const nextTimeOfDay = (afterUnixS: number, ofDayS: number, zone: string): number => {
  const localS = afterUnixS + zoneOffsetS(afterUnixS, zone);
  const midnightS = Math.floor(localS / DAY_S) * DAY_S;
  const dayS = midnightS + ofDayS < localS ? midnightS + DAY_S : midnightS;
  const guessS = dayS + ofDayS - zoneOffsetS(afterUnixS, zone);
  // Where the clocks are changed in between, the offset is another.
  return dayS + ofDayS - zoneOffsetS(guessS, zone);
};
