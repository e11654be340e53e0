import { quantileInPlace } from '../signal/index.js';
import { speedByFixes } from './course.js';
import { knotsWith, type Section } from './section.js';
import { MOTION_SETTINGS } from './settings.js';

/** The wandering part of the position error: sd of each axis, and its correlation time. */
export interface Wander {
  readonly sdM: number;
  readonly correlationS: number;
}

/** The wandering part of the error of a logged speed: its sd, and its correlation time. */
export interface SpeedWander {
  readonly sdMps: number;
  readonly correlationS: number;
}

/** Binomial weights of a difference of each order used, and the root of the sum of their squares. */
const DIFFERENCES = {
  second: { weights: [1, -2, 1], norm: Math.sqrt(6) },
  fourth: { weights: [1, -4, 6, -4, 1], norm: Math.sqrt(70) },
  sixth: { weights: [1, -6, 15, -20, 15, -6, 1], norm: Math.sqrt(924) },
} as const;

/** Most differences looked at: enough for 1 % of a robust sd, and a log of any length costs the same. */
const MOST_DIFFERENCES = 20_000;

type Order = keyof typeof DIFFERENCES;

/** Which samples end a run of even steps long enough for a difference of this order. */
const evenRuns = (atS: Float64Array, order: Order): number[] => {
  const reach = DIFFERENCES[order].weights.length - 1;
  const stride = Math.max(1, Math.floor(atS.length / MOST_DIFFERENCES));
  const ends: number[] = [];
  for (let i = reach; i < atS.length; i += stride) {
    const usualS = (atS[i]! - atS[i - reach]!) / reach;
    let even = true;
    for (let j = 1; j <= reach && even; j++)
      even = Math.abs(atS[i - reach + j]! - atS[i - reach + j - 1]! - usualS) < 0.2 * usualS;
    if (even) ends.push(i);
  }
  return ends;
};

/** Differences, scaled so that those of white noise have its own sd. */
const differences = (values: Float64Array, ends: readonly number[], order: Order): Float64Array => {
  const { weights, norm } = DIFFERENCES[order];
  const made = new Float64Array(ends.length);
  for (let i = 0; i < made.length; i++) {
    const first = ends[i]! - weights.length + 1;
    let sum = 0;
    for (let j = 0; j < weights.length; j++) sum += weights[j]! * values[first + j]!;
    made[i] = sum / norm;
  }
  return made;
};

const absolute = (values: Float64Array): Float64Array => {
  const made = new Float64Array(values.length);
  for (let i = 0; i < made.length; i++) made[i] = Math.abs(values[i]!);
  return made;
};

/**
 * sd of centred values from the median of their absolute values, so that outliers and starts do not count
 * (Donoho & Johnstone 1994 use it on differences as here); null with fewer than 10.
 */
const robustSd = (values: Float64Array): number | null =>
  values.length < 10 ? null : MOTION_SETTINGS.madToSd * quantileInPlace(absolute(values), 0.5);

const orderFor = (rateHz: number): Order =>
  rateHz >= 8 ? 'sixth' : rateHz >= MOTION_SETTINGS.fineSpeedHz ? 'fourth' : 'second';

const rateOf = (atS: Float64Array): number =>
  atS.length < 2 ? 1 : (atS.length - 1) / (atS[atS.length - 1]! - atS[0]!);

const pick = (values: Float64Array, knots: Int32Array): Float64Array => {
  const picked = new Float64Array(knots.length);
  for (let i = 0; i < picked.length; i++) picked[i] = values[knots[i]!]!;
  return picked;
};

const joined = (first: Float64Array, second: Float64Array): Float64Array => {
  const both = new Float64Array(first.length + second.length);
  both.set(first);
  both.set(second, first.length);
  return both;
};

/**
 * sd of the white part of the position error, each axis, m. The wandering part's own roughness between fixes is
 * taken off.
 * @returns null with too few fixes
 */
export const positionWhiteSd = (section: Section, wander: Wander): number | null => {
  const knots = knotsWith(section.hasFix);
  const atS = pick(section.atS, knots);
  const rateHz = rateOf(atS);
  const order = orderFor(rateHz);
  const ends = evenRuns(atS, order);
  const east = differences(pick(section.eastM, knots), ends, order);
  const north = differences(pick(section.northM, knots), ends, order);
  const seen = robustSd(joined(east, north));
  if (seen === null) return null;
  // Increments of a Gauss-Markov process over a step; the n-th difference of a walk is the (n-1)-th of its steps.
  const walk = 2 * wander.sdM ** 2 * (1 - Math.exp(-1 / (rateHz * wander.correlationS)));
  let [steps, sum] = [0, 0];
  for (const weight of DIFFERENCES[order].weights) {
    sum += weight;
    steps += sum * sum;
  }
  const square = seen * seen - (walk * steps) / DIFFERENCES[order].norm ** 2;
  return Math.max(MOTION_SETTINGS.leastWhiteSdM, Math.sqrt(Math.max(0, square)));
};

/** The ends of differences at which the boat is at way. */
const endsMoving = (ends: readonly number[], knots: Int32Array, speedMps: Float64Array): number[] => {
  const found: number[] = [];
  for (const end of ends) if (speedMps[knots[end]!]! > MOTION_SETTINGS.movingMps) found.push(end);
  return found;
};

/** Mean of squares, each cut at a most. */
const cutMeanSquare = (values: Float64Array, most: number): number => {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += Math.min(values[i]! * values[i]!, most);
  return sum / values.length;
};

/**
 * sd of the logged speed at way, m/s: what is white in it, the inside of a stroke that slow sampling folds
 * included. Receivers err with heavier tails than normal, so the bulk alone would be too little: squares are
 * averaged, cut at three robust sd.
 * @returns null where too little of the section is at way
 */
export const speedWhiteSd = (section: Section): number | null => {
  const knots = knotsWith(section.hasSpeed);
  const atS = pick(section.atS, knots);
  const order = orderFor(rateOf(atS));
  const ends = endsMoving(evenRuns(atS, order), knots, speedByFixes(section));
  const seen = differences(pick(section.speedMps, knots), ends, order);
  const bulk = robustSd(seen);
  if (bulk === null) return null;
  return Math.max(MOTION_SETTINGS.leastSpeedSdMps, Math.sqrt(cutMeanSquare(seen, 9 * bulk * bulk)));
};

/**
 * sd of the receiver's own error of a logged speed too slow to show the inside of a stroke, m/s: from where the boat
 * lies or drifts, since at way the stroke is in every sample.
 */
export const receiverSpeedSd = (section: Section): number => {
  const knots = knotsWith(section.hasSpeed);
  const speeds = pick(section.speedMps, knots);
  const ends = evenRuns(pick(section.atS, knots), 'second').filter((end) =>
    [0, 1, 2].every((back) => speeds[end - back]! < MOTION_SETTINGS.slowMps),
  );
  const seen = robustSd(differences(speeds, ends, 'second')) ?? 0;
  return Math.max(MOTION_SETTINGS.leastSpeedSdMps, seen / MOTION_SETTINGS.restNoiseShare);
};

/** Samples a second of the logged speed. */
export const speedRateHz = (section: Section): number =>
  rateOf(pick(section.atS, knotsWith(section.hasSpeed)));
