import { formatClock } from './clock-time.js';
import { splitOfSpeed } from './speed.js';
import { UserError } from './user-error.js';

/** What turns into one another: speed, rate, a length, and the strokes over it. Null: not given, or not known. */
export interface Pace {
  readonly speedMps: number | null;
  readonly rateSpm: number | null;
  readonly distancePerStrokeM: number | null;
  readonly distanceM: number | null;
  readonly durationS: number | null;
  /** May be a broken number. */
  readonly strokeCount: number | null;
}

type Name = keyof Pace;

/** Each quantity from others: distance per stroke = 60 v / rate, distance = v t, strokes = rate t / 60. */
const RULES: readonly (readonly [Name, readonly Name[], (...given: number[]) => number])[] = [
  ['speedMps', ['rateSpm', 'distancePerStrokeM'], (rate, metres) => (rate! * metres!) / 60],
  ['speedMps', ['distanceM', 'durationS'], (metres, seconds) => metres! / seconds!],
  ['rateSpm', ['speedMps', 'distancePerStrokeM'], (speed, metres) => (60 * speed!) / metres!],
  ['rateSpm', ['strokeCount', 'durationS'], (strokes, seconds) => (60 * strokes!) / seconds!],
  ['distancePerStrokeM', ['speedMps', 'rateSpm'], (speed, rate) => (60 * speed!) / rate!],
  ['distancePerStrokeM', ['distanceM', 'strokeCount'], (metres, strokes) => metres! / strokes!],
  ['distanceM', ['speedMps', 'durationS'], (speed, seconds) => speed! * seconds!],
  ['distanceM', ['distancePerStrokeM', 'strokeCount'], (metres, strokes) => metres! * strokes!],
  ['durationS', ['distanceM', 'speedMps'], (metres, speed) => metres! / speed!],
  ['durationS', ['strokeCount', 'rateSpm'], (strokes, rate) => (60 * strokes!) / rate!],
  ['strokeCount', ['rateSpm', 'durationS'], (rate, seconds) => (rate! * seconds!) / 60],
  ['strokeCount', ['distanceM', 'distancePerStrokeM'], (metres, per) => metres! / per!],
];

/** Two ways to a value may differ by this share: people round splits to tenths and rates to whole strokes. */
const AGREEMENT = 0.01;

const SAID: Readonly<Record<Name, (value: number) => string>> = {
  speedMps: (value) => `a split of ${formatClock(splitOfSpeed(value), 1)} (${value.toFixed(2)} m/s)`,
  rateSpm: (value) => `a rate of ${value.toFixed(1)} spm`,
  distancePerStrokeM: (value) => `${value.toFixed(2)} m per stroke`,
  distanceM: (value) => `a distance of ${value.toFixed(0)} m`,
  durationS: (value) => `a time of ${formatClock(value, 1)}`,
  strokeCount: (value) => `${value.toFixed(0)} strokes`,
};

/**
 * All that follows from what is given.
 * @throws UserError where what is given contradicts itself
 * @example paceOf({ speedMps: 5, rateSpm: 30 }).distancePerStrokeM // 10
 */
export const paceOf = (given: Partial<Pace>): Pace => {
  const known: Record<Name, number | null> = {
    speedMps: given.speedMps ?? null,
    rateSpm: given.rateSpm ?? null,
    distancePerStrokeM: given.distancePerStrokeM ?? null,
    distanceM: given.distanceM ?? null,
    durationS: given.durationS ?? null,
    strokeCount: given.strokeCount ?? null,
  };
  for (let found = true; found; ) {
    found = false;
    for (const [name, from, rule] of RULES) {
      const values = from.map((other) => known[other]);
      if (known[name] !== null || values.includes(null)) continue;
      known[name] = rule(...(values as number[]));
      found = true;
    }
  }
  for (const [name, from, rule] of RULES) {
    const values = from.map((other) => known[other]);
    const [value, other] = [known[name], values.includes(null) ? null : rule(...(values as number[]))];
    if (value !== null && other !== null && Math.abs(Math.log(value / other)) > AGREEMENT)
      throw new UserError(
        `${from.map((each) => SAID[each](known[each]!)).join(' and ')} make ${SAID[name](other)}, not ${SAID[name](value)}: leave one of them out`,
      );
  }
  return known;
};
