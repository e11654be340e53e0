import { parseIsoTime } from '../../units/instant.js';

const TIME_OF_DAY = /^(\d{1,2}):(\d{2}):(\d{2}(?:[.,]\d+)?)$/;
const DAY_FIRST = /^\d{1,2}[./-]\d{1,2}[./-]\d{2,4}\b/;
const ZONE = /(?:Z|UTC|GMT|[+-]\d{2}:?\d{2})$/i;

/** Unix time, s, of ISO 8601 or of the same with slashes, dots or a closing `UTC`; NaN where it is neither. */
export const unixOfText = (text: string): number =>
  parseIsoTime(text.replace(/^(\d{4})[/.](\d{2})[/.](\d{2})/, '$1-$2-$3').replace(/\s*(?:UTC|GMT)$/i, 'Z')) ??
  Number.NaN;

/** True where a time states its zone. */
export const statesZone = (text: string): boolean => ZONE.test(text);

/** Seconds since midnight of `10:00:05.25`; NaN where the text is no time of day. */
export const timeOfDayS = (text: string): number => {
  const found = TIME_OF_DAY.exec(text);
  return found === null
    ? Number.NaN
    : Number(found[1]) * 3600 + Number(found[2]) * 60 + Number(found[3]!.replace(',', '.'));
};

/** True for a date that may be day first or month first. */
export const isAmbiguousDate = (text: string): boolean => DAY_FIRST.test(text);
