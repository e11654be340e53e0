import { type ForwardPass, MEASURES, PACKED } from './forward-pass.js';
import { STATE_COUNT, STEP, STEP_SIZE } from './motion-model.js';

const N = STATE_COUNT;
/** The state that each measure reads, and the one it adds (-1: none). */
const READS = [0, 1, 2] as const;
const ADDS = [5, 6, -1] as const;

/**
 * A vector taken back over the step from knot k to k + 1: multiplied by the transpose of the step's matrix.
 */
const backOverStep = (vector: Float64Array, at: number, steps: Float64Array, k: number): void => {
  const s = k * STEP_SIZE;
  const [e, n, v, w, a] = [vector[at]!, vector[at + 1]!, vector[at + 2]!, vector[at + 3]!, vector[at + 4]!];
  const [cos, sin, vs] = [steps[s + STEP.cos]!, steps[s + STEP.sin]!, steps[s + STEP.speedSurge]!];
  const speed = cos * v - sin * w;
  vector[at + 2] = steps[s]! * e + steps[s + 3]! * n + speed;
  vector[at + 3] = steps[s + 1]! * e + steps[s + 4]! * n + sin * v + cos * w;
  vector[at + 4] = steps[s + 2]! * e + steps[s + 5]! * n + vs * speed + steps[s + STEP.surgeKept]! * a;
  vector[at + 5] = vector[at + 5]! * steps[s + STEP.errorKept]!;
  vector[at + 6] = vector[at + 6]! * steps[s + STEP.errorKept]!;
};

/** A vector taken back over a knot's measures, innovations left aside. */
const backOverKnot = (vector: Float64Array, at: number, pass: ForwardPass, k: number): void => {
  for (let m = MEASURES - 1; m >= 0; m--) {
    if (pass.precision[k * MEASURES + m] === 0) continue;
    const g = (k * MEASURES + m) * N;
    let dot = 0;
    for (let i = 0; i < N; i++) dot += pass.gain[g + i]! * vector[at + i]!;
    vector[at + READS[m]!] = vector[at + READS[m]!]! - dot;
    if (ADDS[m]! >= 0) vector[at + ADDS[m]!] = vector[at + ADDS[m]!]! - dot;
  }
};

/** A symmetric packed matrix of knot k times a vector. */
const timesPacked = (packed: Float64Array, k: number, vector: Float64Array, result: Float64Array): void => {
  result.fill(0);
  for (let i = 0, c = k * PACKED; i < N; i++)
    for (let j = i; j < N; j++) {
      const value = packed[c++]!;
      result[i] = result[i]! + value * vector[j]!;
      if (i !== j) result[j] = result[j]! + value * vector[i]!;
    }
};

/**
 * Smoothed states: the smoother of Rauch, Tung & Striebel (1965, AIAA J. 3:1445) in the form of Bryson &
 * Frazier (1963; Bierman 1973, Automatica 9:621), which inverts no matrix.
 * @returns state of every knot, 7 numbers each
 */
export const smoothedStates = (pass: ForwardPass, steps: Float64Array, count: number): Float64Array => {
  const states = pass.state.slice();
  const adjoint = new Float64Array(N);
  const shift = new Float64Array(N);
  for (let k = count - 1; k >= 0; k--) {
    if (k < count - 1) backOverStep(adjoint, 0, steps, k);
    for (let m = MEASURES - 1; m >= 0; m--) {
      if (pass.precision[k * MEASURES + m] === 0) continue;
      const g = (k * MEASURES + m) * N;
      let dot = pass.scaledInnovation[k * MEASURES + m]!;
      for (let i = 0; i < N; i++) dot += pass.gain[g + i]! * adjoint[i]!;
      adjoint[READS[m]!] = adjoint[READS[m]!]! - dot;
      if (ADDS[m]! >= 0) adjoint[ADDS[m]!] = adjoint[ADDS[m]!]! - dot;
    }
    timesPacked(pass.covariance, k, adjoint, shift);
    for (let i = 0; i < N; i++) states[k * N + i] = states[k * N + i]! - shift[i]!;
  }
  return states;
};

/** Variances of linear functions of the smoothed states. */
export interface SmoothedCovariance {
  /**
   * Variance of a sum over knots.
   * @param weightsOf writes the weights of a knot's seven states; called from the last knot to the first
   */
  readonly varianceOfSum: (
    firstKnot: number,
    lastKnot: number,
    weightsOf: (knot: number, weights: Float64Array) => void,
  ) => number;
  /** Covariance of a function of one knot and one of the same or a later knot. */
  readonly between: (
    knot: number,
    weights: Float64Array,
    laterKnot: number,
    laterWeights: Float64Array,
  ) => number;
}

/**
 * Covariances of the smoothing error within and between knots (de Jong & MacKinnon 1988, Biometrika 75:601),
 * from the adjoint's covariance of Bryson & Frazier.
 */
export const smoothedCovariance = (
  pass: ForwardPass,
  steps: Float64Array,
  count: number,
): SmoothedCovariance => {
  const information = new Float64Array(count * PACKED);
  const m = new Float64Array(N * N);
  const row = new Float64Array(N);
  const forBothSides = (act: (vector: Float64Array, at: number) => void) => {
    for (let i = 0; i < N; i++) act(m, i * N);
    for (let j = 0; j < N; j++) {
      for (let i = 0; i < N; i++) row[i] = m[i * N + j]!;
      act(row, 0);
      for (let i = 0; i < N; i++) m[i * N + j] = row[i]!;
    }
  };
  for (let k = count - 1; k >= 0; k--) {
    if (k < count - 1) forBothSides((vector, at) => backOverStep(vector, at, steps, k));
    for (let measure = MEASURES - 1; measure >= 0; measure--) {
      const precision = pass.precision[k * MEASURES + measure]!;
      if (precision === 0) continue;
      const g = (k * MEASURES + measure) * N;
      const [reads, adds] = [READS[measure]!, ADDS[measure]!];
      forBothSides((vector, at) => {
        let dot = 0;
        for (let i = 0; i < N; i++) dot += pass.gain[g + i]! * vector[at + i]!;
        vector[at + reads] = vector[at + reads]! - dot;
        if (adds >= 0) vector[at + adds] = vector[at + adds]! - dot;
      });
      m[reads * N + reads] = m[reads * N + reads]! + precision;
      if (adds >= 0) {
        m[adds * N + adds] = m[adds * N + adds]! + precision;
        m[reads * N + adds] = m[reads * N + adds]! + precision;
        m[adds * N + reads] = m[adds * N + reads]! + precision;
      }
    }
    for (let i = 0, c = k * PACKED; i < N; i++) for (let j = i; j < N; j++) information[c++] = m[i * N + j]!;
  }

  const spread = new Float64Array(N);
  const seen = new Float64Array(N);
  /** (I - Λ P) h, the part of the prediction error's function that the samples from here on leave. */
  const left = (knot: number, weights: Float64Array, result: Float64Array) => {
    timesPacked(pass.covariance, knot, weights, spread);
    timesPacked(information, knot, spread, seen);
    for (let i = 0; i < N; i++) result[i] = weights[i]! - seen[i]!;
  };

  return {
    varianceOfSum: (firstKnot, lastKnot, weightsOf) => {
      const later = new Float64Array(N);
      const own = new Float64Array(N);
      const weights = new Float64Array(N);
      const both = new Float64Array(N);
      const image = new Float64Array(N);
      let variance = 0;
      for (let k = lastKnot; k >= firstKnot; k--) {
        if (k < lastKnot) {
          backOverStep(later, 0, steps, k);
          backOverKnot(later, 0, pass, k);
        }
        weights.fill(0);
        weightsOf(k, weights);
        left(k, weights, own);
        for (let i = 0; i < N; i++) both[i] = own[i]! + 2 * later[i]!;
        timesPacked(pass.covariance, k, both, image);
        for (let i = 0; i < N; i++) variance += weights[i]! * image[i]!;
        for (let i = 0; i < N; i++) later[i] = later[i]! + own[i]!;
      }
      return Math.max(0, variance);
    },
    between: (knot, weights, laterKnot, laterWeights) => {
      const vector = new Float64Array(N);
      const image = new Float64Array(N);
      left(laterKnot, laterWeights, vector);
      for (let k = laterKnot - 1; k >= knot; k--) {
        backOverStep(vector, 0, steps, k);
        backOverKnot(vector, 0, pass, k);
      }
      timesPacked(pass.covariance, knot, vector, image);
      let covariance = 0;
      for (let i = 0; i < N; i++) covariance += weights[i]! * image[i]!;
      return covariance;
    },
  };
};
