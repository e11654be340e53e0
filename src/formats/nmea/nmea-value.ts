import { MPS_PER_KNOT } from '../../units/speed.js';

const NUMBER = /^-?\d+(?:\.\d*)?$/;

/** A number of a sentence; NaN where the field is empty or anything else. */
export const nmeaNumber = (text: string | undefined): number =>
  text !== undefined && NUMBER.test(text) ? Number(text) : Number.NaN;

/** Speed in knots as m/s. */
export const nmeaSpeedMps = (text: string | undefined): number => nmeaNumber(text) * MPS_PER_KNOT;

/**
 * Degrees of `ddmm.mmmm` or `dddmm.mmmm` and its letter; NaN where they are no such place.
 * @example nmeaDegrees('4807.038', 'N', 90) // 48.1173
 */
export const nmeaDegrees = (
  text: string | undefined,
  side: string | undefined,
  limitDeg: 90 | 180,
): number => {
  const value = nmeaNumber(text);
  const degrees = Math.floor(value / 100);
  const minutes = value - degrees * 100;
  const sign = side === 'N' || side === 'E' ? 1 : side === 'S' || side === 'W' ? -1 : Number.NaN;
  const total = degrees + minutes / 60;
  return value >= 0 && minutes < 60 && total <= limitDeg ? sign * total : Number.NaN;
};

/** Seconds of the day of `hhmmss.sss`; NaN where the text is no such time. */
export const nmeaTimeOfDay = (text: string | undefined): number => {
  const found = /^(\d\d)(\d\d)(\d\d(?:\.\d*)?)$/.exec(text ?? '');
  if (!found) return Number.NaN;
  const [hours, minutes, seconds] = found.slice(1).map(Number) as [number, number, number];
  // 60 is a leap second.
  return hours < 24 && minutes < 60 && seconds < 61 ? hours * 3600 + minutes * 60 + seconds : Number.NaN;
};

/** Unix time of a day's start, s; NaN where there is no such day. */
export const nmeaDay = (year: number, month: number, day: number): number => {
  const start = Date.UTC(year, month - 1, day);
  const back = new Date(start);
  return back.getUTCMonth() === month - 1 && back.getUTCDate() === day ? start / 1000 : Number.NaN;
};

/** First year that two digits can mean: receivers of the system exist since 1980. */
const FIRST_YEAR = 1980;

/** Unix time of the start of the day `ddmmyy`, s; NaN where the text is no day. */
export const nmeaDate = (text: string | undefined): number => {
  const found = /^(\d\d)(\d\d)(\d\d)$/.exec(text ?? '');
  if (!found) return Number.NaN;
  const [day, month, short] = found.slice(1).map(Number) as [number, number, number];
  const year = short + (short >= FIRST_YEAR % 100 ? 1900 : 2000);
  return nmeaDay(year, month, day);
};
