import { type ForwardPass, MEASURES } from './forward-pass.js';
import { STATE, STATE_COUNT, STEP, STEP_SIZE } from './motion-model.js';
import { informationOverStep, PACKED, ROWS } from './packed-steps.js';

const N = STATE_COUNT;
/** The state that each measure reads, and the one it adds. */
const READS = Int8Array.of(STATE.east, STATE.north, STATE.along);
const ADDS = Int8Array.of(STATE.errorEast, STATE.errorNorth, STATE.speedError);

/** A vector taken back over the step from knot k to k + 1: multiplied by the transpose of the step's matrix. */
const backOverStep = (vector: Float64Array, steps: Float64Array, k: number): void => {
  const s = k * STEP_SIZE;
  const e = vector[0]!;
  const n = vector[1]!;
  const v = vector[2]!;
  const w = vector[3]!;
  const a = vector[4]!;
  const cos = steps[s + STEP.cos]!;
  const sin = steps[s + STEP.sin]!;
  const errorKept = steps[s + STEP.errorKept]!;
  const speed = cos * v - sin * w;
  vector[2] = steps[s]! * e + steps[s + 3]! * n + speed;
  vector[3] = steps[s + 1]! * e + steps[s + 4]! * n + sin * v + cos * w;
  vector[4] =
    steps[s + 2]! * e +
    steps[s + 5]! * n +
    steps[s + STEP.speedSurge]! * speed +
    steps[s + STEP.surgeKept]! * a;
  vector[5] = vector[5]! * errorKept;
  vector[6] = vector[6]! * errorKept;
  vector[7] = vector[7]! * steps[s + STEP.speedErrorKept]!;
};

/** A vector taken back over one measure with the innovation that it saw (0: left aside). */
const backOverMeasure = (
  vector: Float64Array,
  gain: Float64Array,
  measure: number,
  innovation: number,
): void => {
  const g = measure * N;
  let dot = innovation;
  for (let i = 0; i < N; i++) dot += gain[g + i]! * vector[i]!;
  const reads = READS[measure % MEASURES]!;
  const adds = ADDS[measure % MEASURES]!;
  vector[reads] = vector[reads]! - dot;
  vector[adds] = vector[adds]! - dot;
};

/** A vector taken back over a knot's measures, innovations left aside. */
const backOverKnot = (vector: Float64Array, pass: ForwardPass, k: number): void => {
  for (let measure = k * MEASURES + MEASURES - 1; measure >= k * MEASURES; measure--)
    if (pass.precision[measure] !== 0) backOverMeasure(vector, pass.gain, measure, 0);
};

/** A symmetric packed matrix of knot k times a vector. */
const timesPacked = (packed: Float64Array, k: number, vector: Float64Array, result: Float64Array): void => {
  for (let i = 0; i < N; i++) result[i] = 0;
  for (let i = 0, c = k * PACKED; i < N; i++) {
    const own = vector[i]!;
    let sum = result[i]! + packed[c++]! * own;
    for (let j = i + 1; j < N; j++) {
      const value = packed[c++]!;
      sum += value * vector[j]!;
      result[j] = result[j]! + value * own;
    }
    result[i] = sum;
  }
};

/**
 * Smoothed states: the smoother of Rauch, Tung & Striebel (1965, AIAA J. 3:1445) in the form of Bryson &
 * Frazier (1963; Bierman 1973, Automatica 9:621), which inverts no matrix.
 * @returns state of every knot, 8 numbers each
 */
export const smoothedStates = (pass: ForwardPass, steps: Float64Array, count: number): Float64Array => {
  const states = pass.state.slice();
  const adjoint = new Float64Array(N);
  const shift = new Float64Array(N);
  for (let k = count - 1; k >= 0; k--) {
    if (k < count - 1) backOverStep(adjoint, steps, k);
    for (let measure = k * MEASURES + MEASURES - 1; measure >= k * MEASURES; measure--)
      if (pass.precision[measure] !== 0)
        backOverMeasure(adjoint, pass.gain, measure, pass.scaledInnovation[measure]!);
    timesPacked(pass.covariance, k, adjoint, shift);
    for (let i = 0; i < N; i++) states[k * N + i] = states[k * N + i]! - shift[i]!;
  }
  return states;
};

/** Variances of linear functions of the smoothed states. */
export interface SmoothedCovariance {
  /**
   * Variance of a weighted sum of the places of knots in a row.
   * @param east weight of each knot's place east, from `firstKnot` on; `north` alike
   */
  readonly varianceOfSum: (firstKnot: number, east: Float64Array, north: Float64Array) => number;
  /** Covariance of a function of one knot and one of the same or a later knot. */
  readonly between: (
    knot: number,
    weights: Float64Array,
    laterKnot: number,
    laterWeights: Float64Array,
  ) => number;
}

/**
 * A symmetric matrix M (packed) taken back over a knot's measures on both sides, and what they tell added. Of a
 * measure with gain g that reads h: M - h (M g)ᵀ - (M g) hᵀ + (gᵀ M g + what it tells) h hᵀ.
 */
const informationOverKnot = (
  m: Float64Array,
  gained: Float64Array,
  seen: Float64Array,
  { gain, precision }: ForwardPass,
  k: number,
): void => {
  for (let which = MEASURES - 1; which >= 0; which--) {
    const measure = k * MEASURES + which;
    let held = precision[measure]!;
    if (held === 0) continue;
    for (let i = 0; i < N; i++) gained[i] = gain[measure * N + i]!;
    timesPacked(m, 0, gained, seen);
    for (let i = 0; i < N; i++) held += gained[i]! * seen[i]!;
    const reads = READS[which]!;
    const adds = ADDS[which]!;
    takeFrom(m, reads, seen);
    addTo(m, reads, reads, held);
    takeFrom(m, adds, seen);
    addTo(m, adds, adds, held);
    addTo(m, reads, adds, held);
  }
};

const addTo = (m: Float64Array, row: number, column: number, value: number): void => {
  const at = ROWS[row]! + column;
  m[at] = m[at]! + value;
};

/** Take a vector from a row of a symmetric matrix, and from the column of the same place. */
const takeFrom = (m: Float64Array, at: number, vector: Float64Array): void => {
  for (let i = 0; i < at; i++) addTo(m, i, at, -vector[i]!);
  addTo(m, at, at, -2 * vector[at]!);
  for (let i = at + 1; i < N; i++) addTo(m, at, i, -vector[i]!);
};

/** Covariance of the adjoint at every knot (packed), before the knot's own samples: taken back on both sides. */
const informationOf = (pass: ForwardPass, steps: Float64Array, count: number): Float64Array => {
  const information = new Float64Array(count * PACKED);
  const m = new Float64Array(PACKED);
  const gained = new Float64Array(N);
  const seen = new Float64Array(N);
  for (let k = count - 1; k >= 0; k--) {
    if (k < count - 1) informationOverStep(m, steps, k);
    informationOverKnot(m, gained, seen, pass, k);
    information.set(m, k * PACKED);
  }
  return information;
};

/** What covariances are made from: the filter's pass, the adjoint's covariance, the steps, and room for products. */
interface Passes {
  readonly pass: ForwardPass;
  readonly information: Float64Array;
  readonly steps: Float64Array;
  readonly spread: Float64Array;
  readonly seen: Float64Array;
}

/** (I - Λ P) h, the part of the prediction error's function that the samples from a knot on leave. */
const leftAfter = (
  { pass, information, spread, seen }: Passes,
  knot: number,
  weights: Float64Array,
  result: Float64Array,
): void => {
  timesPacked(pass.covariance, knot, weights, spread);
  timesPacked(information, knot, spread, seen);
  for (let i = 0; i < N; i++) result[i] = weights[i]! - seen[i]!;
};

const varianceOfSum = (
  passes: Passes,
  firstKnot: number,
  east: Float64Array,
  north: Float64Array,
): number => {
  const { pass, steps } = passes;
  const later = new Float64Array(N);
  const own = new Float64Array(N);
  const weights = new Float64Array(N);
  const both = new Float64Array(N);
  const image = new Float64Array(N);
  const last = east.length - 1;
  let variance = 0;
  for (let at = last; at >= 0; at--) {
    const k = firstKnot + at;
    if (at < last) {
      backOverStep(later, steps, k);
      backOverKnot(later, pass, k);
    }
    weights[STATE.east] = east[at]!;
    weights[STATE.north] = north[at]!;
    leftAfter(passes, k, weights, own);
    for (let i = 0; i < N; i++) both[i] = own[i]! + 2 * later[i]!;
    timesPacked(pass.covariance, k, both, image);
    for (let i = 0; i < N; i++) variance += weights[i]! * image[i]!;
    for (let i = 0; i < N; i++) later[i] = later[i]! + own[i]!;
  }
  return Math.max(0, variance);
};

const covarianceBetween = (
  passes: Passes,
  knot: number,
  weights: Float64Array,
  laterKnot: number,
  laterWeights: Float64Array,
): number => {
  const { pass, steps } = passes;
  const vector = new Float64Array(N);
  const image = new Float64Array(N);
  leftAfter(passes, laterKnot, laterWeights, vector);
  for (let k = laterKnot - 1; k >= knot; k--) {
    backOverStep(vector, steps, k);
    backOverKnot(vector, pass, k);
  }
  timesPacked(pass.covariance, knot, vector, image);
  let covariance = 0;
  for (let i = 0; i < N; i++) covariance += weights[i]! * image[i]!;
  return covariance;
};

/**
 * Covariances of the smoothing error within and between knots (de Jong & MacKinnon 1988, Biometrika 75:601),
 * from the adjoint's covariance of Bryson & Frazier.
 */
export const smoothedCovariance = (
  pass: ForwardPass,
  steps: Float64Array,
  count: number,
): SmoothedCovariance => {
  const passes: Passes = {
    pass,
    information: informationOf(pass, steps, count),
    steps,
    spread: new Float64Array(N),
    seen: new Float64Array(N),
  };
  return {
    varianceOfSum: (firstKnot, east, north) => varianceOfSum(passes, firstKnot, east, north),
    between: (knot, weights, laterKnot, laterWeights) =>
      covarianceBetween(passes, knot, weights, laterKnot, laterWeights),
  };
};
