import { parseIsoTime } from '../../units/instant.js';
import { parseDecimal } from '../decimal.js';

/** The times of a CSV log's rows. */
export interface CsvClock {
  /** Seconds from the origin; NaN where a row has no time that can be read. */
  readonly atS: Float64Array;
  /** Unix time of 0, s; null where the clock counts from the log's start. */
  readonly originUnixS: number | null;
  /** What had to be assumed, each a code and a sentence. */
  readonly notes: readonly (readonly [code: string, message: string])[];
}

/** Why a column of times cannot be read. */
export interface CsvClockFault {
  readonly refused: string;
  readonly code: string;
}

/** How far numbers of unknown unit are believed. */
export const CSV_CLOCK_SETTINGS = Object.freeze({
  /** Unix s; times of day from 1990 on are an absolute clock, below they count from a start. */
  earliestUnixS: 631152000,
  /** Unix s; 2100. */
  latestUnixS: 4102444800,
  /** s; a motion sensor's samples are closer than this, a track's further apart than half of it. */
  longestMotionStepS: 0.2,
  /** s; no logger samples faster. */
  shortestStepS: 0.0002,
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

const fromOrigin = (unixS: Float64Array, firstS: number): Float64Array => {
  const { ticksPerS } = CSV_CLOCK_SETTINGS;
  return unixS.map((at) => Math.round((at - firstS) * ticksPerS) / ticksPerS);
};

const usualStep = (numbers: Float64Array): number => {
  const steps: number[] = [];
  let last = Number.NaN;
  for (const number of numbers) {
    if (number > last) steps.push(number - last);
    if (Number.isFinite(number)) last = number;
  }
  steps.sort((a, b) => a - b);
  return steps[steps.length >> 1] ?? Number.NaN;
};

/**
 * Times of a column of numbers.
 * @param scale seconds in one; null where the header does not say
 * @param motion true where the log holds a motion sensor's samples, which come faster than a track's
 */
export const numericClock = (
  numbers: Float64Array,
  scale: number | null,
  motion: boolean,
): CsvClock | CsvClockFault => {
  const first = numbers.find((number) => Number.isFinite(number));
  if (first === undefined) return { code: 'no-times', refused: 'no row has a time that is a number' };
  const step = usualStep(numbers);
  const { shortestStepS, longestMotionStepS, longestTrackStepS } = CSV_CLOCK_SETTINGS;
  const fits = (candidate: number): boolean =>
    Number.isNaN(step) ||
    (step * candidate >= shortestStepS &&
      step * candidate <= (motion ? longestMotionStepS : longestTrackStepS));
  const found =
    scale === null
      ? (SCALES.find(([candidate]) => isUnix(first * candidate) && fits(candidate)) ??
        SCALES.find(([candidate]) => fits(candidate)))
      : ([scale, ''] as const);
  if (found === undefined)
    return {
      code: 'time-unit-unknown',
      refused: 'the unit of the time column cannot be told; name it in the header, such as time_s or time_ms',
    };
  const firstS = first * found[0];
  const notes: (readonly [string, string])[] =
    scale === null && !(found[0] === 1 && !isUnix(firstS) && !motion)
      ? [
          [
            'time-unit-assumed',
            `the header states no unit of time; ${found[1]}${isUnix(firstS) ? ' since 1970' : ''} were taken, which fits the spacing of the samples; name the column ${isUnix(firstS) ? 'time_unix_s or time_unix_ms' : 'time_s, time_ms or time_us'} to be sure`,
          ],
        ]
      : [];
  if (!isUnix(firstS))
    return { atS: numbers.map((number) => (number - first) * found[0]), originUnixS: null, notes };
  const originUnixS = Math.floor(firstS);
  return {
    atS: fromOrigin(
      numbers.map((number) => number * found[0]),
      originUnixS,
    ),
    originUnixS,
    notes,
  };
};

const ZONE = /(?:Z|UTC|[+-]\d{2}:?\d{2})$/i;
const TIME_OF_DAY = /^(\d{1,2}):(\d{2}):(\d{2}(?:[.,]\d+)?)$/;
const DAY_FIRST = /^\d{1,2}[./-]\d{1,2}[./-]\d{2,4}\b/;

const isoOf = (text: string): number | null =>
  parseIsoTime(text.replace(/^(\d{4})[/.](\d{2})[/.](\d{2})/, '$1-$2-$3').replace(/\s*UTC$/i, 'Z'));

const timeOfDayS = (text: string): number => {
  const found = TIME_OF_DAY.exec(text.trim());
  return found === null
    ? Number.NaN
    : Number(found[1]) * 3600 + Number(found[2]) * 60 + Number(found[3]!.replace(',', '.'));
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

/**
 * Times of a column of text: ISO 8601, or a time of day, or numbers.
 * @param texts one a row
 */
export const textClock = (
  texts: readonly string[],
  scale: number | null,
  motion: boolean,
): CsvClock | CsvClockFault => {
  const first = texts.find((text) => text !== '');
  if (first === undefined) return { code: 'no-times', refused: 'no row has a time' };
  if (!Number.isNaN(parseDecimal(first)))
    return numericClock(Float64Array.from(texts, parseDecimal), scale, motion);
  if (isoOf(first) !== null) {
    const unixS = Float64Array.from(texts, (text) => isoOf(text) ?? Number.NaN);
    const originUnixS = Math.floor(isoOf(first)!);
    return {
      atS: fromOrigin(unixS, originUnixS),
      originUnixS,
      notes: ZONE.test(first)
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
      atS: overMidnight(Float64Array.from(texts, timeOfDayS)),
      originUnixS: null,
      notes: [['date-missing', 'the times have no date, so the log counts from its own start']],
    };
  if (DAY_FIRST.test(first))
    return {
      code: 'date-ambiguous',
      refused: `the date "${first.slice(0, 30)}" may be day first or month first; write it as 2026-04-03 10:00:00 or give seconds in a column time_s`,
    };
  return {
    code: 'time-unreadable',
    refused: `the time "${first.slice(0, 30)}" cannot be read; write it as 2026-04-03T10:00:00Z or give seconds in a column time_s`,
  };
};
