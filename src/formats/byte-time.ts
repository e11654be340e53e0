import type { ByteCursor } from './byte-cursor.js';
import { decimalAt } from './byte-cursor.js';

const [ZERO, MINUS, COLON, POINT, UPPER_T, UPPER_Z] = [0x30, 0x2d, 0x3a, 0x2e, 0x54, 0x5a];
const DAY_S = 86400;
const LENGTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** Digits at a place as a number; NaN where there are others. */
const digitsAt = (bytes: Uint8Array, at: number, count: number): number => {
  let value = 0;
  for (let i = at; i < at + count; i++) {
    const digit = bytes[i]! - ZERO;
    if (!(digit >= 0 && digit <= 9)) return Number.NaN;
    value = value * 10 + digit;
  }
  return value;
};

/** Days from 1970-01-01 to a day of the Gregorian calendar (Howard Hinnant, days_from_civil). */
const daysFrom1970 = (year: number, month: number, day: number): number => {
  const y = month <= 2 ? year - 1 : year;
  const era = Math.floor(y / 400);
  const yearOfEra = y - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
  return (
    era * 146097 +
    yearOfEra * 365 +
    Math.floor(yearOfEra / 4) -
    Math.floor(yearOfEra / 100) +
    dayOfYear -
    719468
  );
};

const lengthOf = (year: number, month: number): number =>
  month === 2 && year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : LENGTHS[month - 1]!;

/** A minute whose time was read: where its text stands in the same bytes, and its Unix time, s. */
export interface KnownMinute {
  at: number;
  unixS: number;
}

/** Length of `2026-04-03T10:00:`. */
const MINUTE_LENGTH = 17;

/** True where the same text up to the minute stands at two places. */
const areSameMinute = (bytes: Uint8Array, one: number, two: number): boolean => {
  let i = MINUTE_LENGTH - 1;
  while (i >= 0 && bytes[one + i] === bytes[two + i]) i--;
  return i < 0;
};

/**
 * Like {@link zuluTimeAt}, where one time after the other is read: one of the minute that was read last is held
 * against it. The minute is kept for the next.
 */
export const nextZuluTimeAt = (cursor: ByteCursor, minute: KnownMinute): number => {
  const { bytes, at: from } = cursor;
  const second = digitsAt(bytes, from + MINUTE_LENGTH, 2);
  if (minute.at >= 0 && second <= 59 && areSameMinute(bytes, minute.at, from))
    return behindSeconds(cursor, from, minute.unixS + second);
  const unixS = zuluTimeAt(cursor);
  minute.at = Number.isNaN(unixS) ? -1 : from;
  // A fraction near 1 may round up to the next second, which may be the next minute's.
  minute.unixS = Math.floor((unixS - second) / 60) * 60;
  return unixS;
};

/** Whole seconds with the fraction and the `Z` that follow; NaN, and the cursor at a place, where there is no `Z`. */
const behindSeconds = (cursor: ByteCursor, from: number, unixS: number): number => {
  const { bytes } = cursor;
  let fraction = 0;
  cursor.at = from + MINUTE_LENGTH + 2;
  if (bytes[cursor.at] === POINT) {
    const digit = bytes[cursor.at + 1]! - ZERO;
    fraction = digit >= 0 && digit <= 9 ? decimalAt(cursor) : Number.NaN;
  }
  if (bytes[cursor.at] !== UPPER_Z || !(fraction < 1)) {
    cursor.at = from;
    return Number.NaN;
  }
  cursor.at++;
  return unixS + fraction;
};

/**
 * The time `2026-04-03T10:00:00Z`, with any fraction, at the cursor, to the same bit as `parseIsoTime` of its
 * text; the cursor moves behind it.
 * @returns Unix time, s; NaN, and the cursor where it was, where the time stands in any other form
 */
export const zuluTimeAt = (cursor: ByteCursor): number => {
  const { bytes } = cursor;
  const from = cursor.at;
  const year = digitsAt(bytes, from, 4);
  const month = digitsAt(bytes, from + 5, 2);
  const day = digitsAt(bytes, from + 8, 2);
  const hour = digitsAt(bytes, from + 11, 2);
  const minute = digitsAt(bytes, from + 14, 2);
  const second = digitsAt(bytes, from + 17, 2);
  const regular =
    bytes[from + 4] === MINUS &&
    bytes[from + 7] === MINUS &&
    bytes[from + 10] === UPPER_T &&
    bytes[from + 13] === COLON &&
    bytes[from + 16] === COLON &&
    year >= 1000 &&
    month >= 1 &&
    month <= 12 &&
    day >= 1 &&
    day <= lengthOf(year, month) &&
    hour <= 23 &&
    minute <= 59 &&
    second <= 59;
  if (!regular) return Number.NaN;
  return behindSeconds(
    cursor,
    from,
    daysFrom1970(year, month, day) * DAY_S + hour * 3600 + minute * 60 + second,
  );
};
