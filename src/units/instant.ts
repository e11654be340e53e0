import { zonedTime } from './zoned-time.js';

/**
 * An instant as ISO 8601 in UTC with milliseconds.
 * @param unixS seconds since 1970-01-01T00:00:00Z
 * @example isoTime(0) // '1970-01-01T00:00:00.000Z'
 */
export const isoTime = (unixS: number): string => new Date(Math.round(unixS * 1000)).toISOString();

/** Like {@link isoTime}, with null (no clock) passed through. */
export const isoTimeOrNull = (unixS: number | null): string | null =>
  unixS === null ? null : isoTime(unixS);

const ISO =
  /^(\d{4})-(\d{2})-(\d{2})[T ](\d{2}):(\d{2})(?::(\d{2})(?:[.,](\d+))?)?\s*(Z|[+-]\d{2}:?\d{2})?$/i;

/**
 * Read an ISO 8601 date and time; without an offset it is taken as UTC. Any number of digits after the second.
 * @returns seconds since 1970-01-01T00:00:00Z, or null where the text is not such a time
 */
export const parseIsoTime = (text: string): number | null => {
  const found = ISO.exec(text.trim());
  if (!found) return null;
  const [year, month, day, hour, minute] = found.slice(1, 6).map(Number) as [
    number,
    number,
    number,
    number,
    number,
  ];
  const second = Number(found[6] ?? 0);
  if (month < 1 || month > 12 || hour > 24 || minute > 59 || second > 60) return null;
  if (day < 1 || day > new Date(Date.UTC(year, month, 0)).getUTCDate()) return null;
  const zone = (found[8] ?? 'Z').toUpperCase();
  const offsetS =
    zone === 'Z'
      ? 0
      : (zone.startsWith('-') ? -1 : 1) * (Number(zone.slice(1, 3)) * 3600 + Number(zone.slice(-2)) * 60);
  return Date.UTC(year, month - 1, day, hour, minute, second) / 1000 + Number(`0.${found[7] ?? 0}`) - offsetS;
};

const DAY_MONTH = /^(\d{1,2})([./-])(\d{1,2})\2(\d{4})[ T,]\s*(\d{1,2}:\d{2}(?::\d{2}(?:[.,]\d+)?)?)$/;

/**
 * Read a date and time as people and spreadsheets write it: ISO 8601, or the day first with dots
 * (`9.5.2026 10:20`). With slashes or hyphens the day may stand first or second.
 * @param zone IANA name of the zone of times that state none
 * @param dayFirst true where slashes are known to have the day first
 * @returns seconds since 1970-01-01T00:00:00Z; 'ambiguous' where it may be either of two days; null where it is none
 */
export const parseWrittenTime = (
  text: string,
  zone: string,
  dayFirst: boolean,
): number | 'ambiguous' | null => {
  const trimmed = text.trim();
  const [, first, sign, second, year, clock] = DAY_MONTH.exec(trimmed) ?? [];
  if (first === undefined || second === undefined) {
    const seconds = parseIsoTime(trimmed);
    if (seconds === null || /(?:Z|[+-]\d{2}:?\d{2})$/i.test(trimmed)) return seconds;
    return zonedTime(seconds, zone);
  }
  if (sign !== '.' && !dayFirst && Number(first) <= 12 && Number(second) <= 12 && first !== second)
    return 'ambiguous';
  const [day, month] = sign !== '.' && !dayFirst && Number(second) > 12 ? [second, first] : [first, second];
  const two = (part: string) => part.padStart(2, '0');
  const seconds = parseIsoTime(`${year}-${two(month)}-${two(day)}T${clock!.replace(/^(\d):/, '0$1:')}`);
  return seconds === null ? null : zonedTime(seconds, zone);
};
