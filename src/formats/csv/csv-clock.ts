import type { WarningCode } from '../../contract/severity.js';
import { nthSmallest } from '../../units/nth-smallest.js';
import { parseDecimal } from '../decimal.js';
import type { CsvSource, TimeColumns } from './csv-source.js';
import { isAmbiguousDate, statesZone, timeOfDayS, unixOfText } from './csv-time.js';

/** The times of a CSV log's rows. */
export interface CsvClock {
  /** Seconds from the origin; NaN where a row has no time that can be read. */
  readonly atS: Float64Array;
  /** Unix time of 0, s; null where the clock counts from the log's start. */
  readonly originUnixS: number | null;
  /** What had to be assumed, each a code and a sentence. */
  readonly notes: readonly (readonly [code: WarningCode, message: string])[];
}

/** Why a column of times cannot be read. */
export interface CsvClockFault {
  readonly refused: string;
  readonly code: WarningCode;
}

/** How far numbers of unknown unit are believed. */
export const CSV_CLOCK_SETTINGS = Object.freeze({
  /** Unix s; times of day from 1990 on are an absolute clock, below they count from a start. */
  earliestUnixS: 631152000,
  /** Unix s; 2100. */
  latestUnixS: 4102444800,
  /** s; a motion sensor's samples are closer than this, a track's further apart than half of it. */
  longestMotionStepS: 0.2,
  /** s; no motion sensor samples faster. */
  shortestMotionStepS: 0.0002,
  /** s; no receiver gives fixes faster. */
  shortestTrackStepS: 0.02,
  /** s; no track is slower in its usual step. */
  longestTrackStepS: 120,
  /** A second's share to which absolute times are kept: a double has noise below a microsecond. */
  ticksPerS: 1e6,
});

const SCALES = [
  [1, 'seconds'],
  [1e-3, 'milliseconds'],
  [1e-6, 'microseconds'],
  [1e-9, 'nanoseconds'],
] as const;

const isUnix = (seconds: number): boolean =>
  seconds >= CSV_CLOCK_SETTINGS.earliestUnixS && seconds <= CSV_CLOCK_SETTINGS.latestUnixS;

/** Times of an absolute clock from an origin. @param scale seconds in one of the numbers */
const fromOrigin = (numbers: Float64Array, scale: number, originUnixS: number): Float64Array => {
  const { ticksPerS } = CSV_CLOCK_SETTINGS;
  const atS = new Float64Array(numbers.length);
  for (let i = 0; i < atS.length; i++)
    atS[i] = Math.round((numbers[i]! * scale - originUnixS) * ticksPerS) / ticksPerS;
  return atS;
};

/** Median of the steps forward; NaN where there is none. */
const usualStep = (numbers: Float64Array): number => {
  const steps = new Float64Array(numbers.length);
  let [count, last] = [0, Number.NaN];
  for (const number of numbers) {
    if (number > last) steps[count++] = number - last;
    if (Number.isFinite(number)) last = number;
  }
  return count === 0 ? Number.NaN : nthSmallest(steps.subarray(0, count), count >> 1);
};

/** The unit that a column of numbers must have for its steps to be a logger's; null where there is none. */
const unitOfNumbers = (
  numbers: Float64Array,
  first: number,
  motion: boolean,
): { scale: number; unit: string; certain: boolean } | null => {
  const settings = CSV_CLOCK_SETTINGS;
  const step = usualStep(numbers);
  const [shortestS, longestS] = motion
    ? [settings.shortestMotionStepS, settings.longestMotionStepS]
    : [settings.shortestTrackStepS, settings.longestTrackStepS];
  const fits = ([scale]: readonly [number, string]): boolean =>
    Number.isNaN(step) || (step * scale >= shortestS && step * scale <= longestS);
  const fitting = SCALES.filter(fits);
  const dated = fitting.find(([scale]) => isUnix(first * scale));
  const [scale, unit] = dated ?? fitting[0] ?? [Number.NaN, ''];
  return fitting.length === 0 ? null : { scale, unit, certain: dated !== undefined || fitting.length === 1 };
};

/**
 * Times of a column of numbers.
 * @param stated seconds in one; null where the header does not say
 */
const numericClock = (
  numbers: Float64Array,
  stated: number | null,
  motion: boolean,
): CsvClock | CsvClockFault => {
  const first = numbers.find((number) => Number.isFinite(number));
  if (first === undefined) return { code: 'no-times', refused: 'no row has a time that is a number' };
  const found = stated === null ? unitOfNumbers(numbers, first, motion) : { scale: stated, certain: true };
  if (found === null)
    return {
      code: 'time-unit-unknown',
      refused: 'the unit of the time column is not known; name it in the header, such as time_s or time_ms',
    };
  const { scale } = found;
  const notes: CsvClock['notes'] =
    'unit' in found && !found.certain
      ? [
          [
            'time-unit-assumed',
            `the header states no unit of time; ${found.unit} were taken; name the column time_s, time_ms or time_us to be sure`,
          ],
        ]
      : [];
  if (!isUnix(first * scale)) {
    const atS = new Float64Array(numbers.length);
    for (let i = 0; i < atS.length; i++) atS[i] = (numbers[i]! - first) * scale;
    return { atS, originUnixS: null, notes };
  }
  const originUnixS = Math.floor(first * scale);
  return { atS: fromOrigin(numbers, scale, originUnixS), originUnixS, notes };
};

const DAY_S = 86400;

/** Times of day on one clock: a step back of more than half a day is midnight. */
const overMidnight = (ofDayS: Float64Array): Float64Array => {
  let [days, last] = [0, Number.NaN];
  return ofDayS.map((at) => {
    if (Number.isFinite(at)) {
      if (last - at > DAY_S / 2) days++;
      last = at;
    }
    return at + days * DAY_S;
  });
};

const short = (text: string): string => text.slice(0, 30);

/**
 * The times of a log's rows, whatever they are written as: ISO 8601, numbers, or a time of day.
 * @param scale seconds in one, where they are numbers; null where the header does not say
 * @param motion true where the log holds a motion sensor's samples, which come faster than a track's
 */
export const csvClock = (
  source: CsvSource,
  columns: TimeColumns,
  scale: number | null,
  motion: boolean,
): CsvClock | CsvClockFault => {
  const first = source.firstTime(columns);
  if (first === '') return { code: 'no-times', refused: 'no row has a time' };
  if (!Number.isNaN(parseDecimal(first))) return numericClock(source.numbers(columns.time), scale, motion);
  const firstUnixS = unixOfText(first);
  if (!Number.isNaN(firstUnixS)) {
    const originUnixS = Math.floor(firstUnixS);
    return {
      atS: fromOrigin(source.unixS(columns), 1, originUnixS),
      originUnixS,
      notes: statesZone(first)
        ? []
        : [
            [
              'time-zone-missing',
              'the times state no zone and were taken as UTC; write them with Z or +02:00',
            ],
          ],
    };
  }
  if (!Number.isNaN(timeOfDayS(first)))
    return {
      atS: overMidnight(source.timesOfDayS(columns)),
      originUnixS: null,
      notes: [['date-missing', 'the times have no date, so the log counts from its own start']],
    };
  if (isAmbiguousDate(first))
    return {
      code: 'date-ambiguous',
      refused: `the date "${short(first)}" may be day first or month first; write it as 2026-04-03 10:00:00 or give seconds in a column time_s`,
    };
  return {
    code: 'time-unreadable',
    refused: `the time "${short(first)}" cannot be read; write it as 2026-04-03T10:00:00Z or give seconds in a column time_s`,
  };
};
