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
