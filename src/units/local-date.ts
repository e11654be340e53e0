/** A day of the calendar. */
export interface LocalDate {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

const two = (value: number): string => String(value).padStart(2, '0');

const formats = new Map<string, Intl.DateTimeFormat>();

/**
 * The day on the calendar of a time zone.
 * @param unixS seconds since 1970-01-01T00:00:00Z
 * @param zone IANA name
 */
export const localDate = (unixS: number, zone: string): LocalDate => {
  let format = formats.get(zone);
  if (format === undefined) {
    format = new Intl.DateTimeFormat('en-GB', {
      timeZone: zone,
      year: 'numeric',
      month: 'numeric',
      day: 'numeric',
    });
    formats.set(zone, format);
  }
  const parts = Object.fromEntries(
    format.formatToParts(unixS * 1000).map(({ type, value }) => [type, Number(value)]),
  );
  return { year: parts.year!, month: parts.month!, day: parts.day! };
};

/** `2026-03-14`. */
export const dayName = ({ year, month, day }: LocalDate): string => `${year}-${two(month)}-${two(day)}`;

/** `2026-03`. */
export const monthName = ({ year, month }: LocalDate): string => `${year}-${two(month)}`;

/**
 * The ISO 8601 week, `2026-W12`: weeks begin on Monday and belong to the year that holds their Thursday.
 * @example weekName({ year: 2021, month: 1, day: 3 }) // '2020-W53'
 */
export const weekName = ({ year, month, day }: LocalDate): string => {
  const date = new Date(Date.UTC(year, month - 1, day));
  date.setUTCDate(date.getUTCDate() + 4 - (date.getUTCDay() || 7));
  const thursdayYear = date.getUTCFullYear();
  const week = Math.floor((date.getTime() - Date.UTC(thursdayYear, 0, 1)) / (7 * 86_400_000)) + 1;
  return `${thursdayYear}-W${two(week)}`;
};
