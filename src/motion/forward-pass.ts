import { type MotionModel, NOISE, NOISE_SIZE, STATE_COUNT, STEP, STEP_SIZE } from './motion-model.js';
import type { Section } from './section.js';
import { MOTION_SETTINGS } from './settings.js';

const N = STATE_COUNT;
/** Entries of a symmetric matrix, row by row from the diagonal on. */
export const PACKED = (N * (N + 1)) / 2;
/** Scalar measurements a knot can hold: fix east, fix north, speed. */
export const MEASURES = 3;

/** What the filter leaves for the smoother: predictions, gains and innovations of every knot. */
export interface ForwardPass {
  /** Predicted state and its covariance (packed), before the knot's own samples. */
  readonly state: Float64Array;
  readonly covariance: Float64Array;
  /** Of each measure: gain (7 numbers), innovation / its variance, 1 / its variance; 0 where not used. */
  readonly gain: Float64Array;
  readonly scaledInnovation: Float64Array;
  readonly precision: Float64Array;
  /** Fixes and speeds that the gate left out. */
  readonly gatedFixes: number;
  readonly gatedSpeeds: number;
  /** Times at which the position jumped for good, s. */
  readonly jumpsS: readonly number[];
}

const FAR_M2 = 1e6; // variance of a place not yet known

/** Room for a pass over so many knots; a second pass over the same section may use it again. */
export type PassRoom = Pick<ForwardPass, 'state' | 'covariance' | 'gain' | 'scaledInnovation' | 'precision'>;
export const passRoom = (count: number): PassRoom => ({
  state: new Float64Array(count * N),
  covariance: new Float64Array(count * PACKED),
  gain: new Float64Array(count * MEASURES * N),
  scaledInnovation: new Float64Array(count * MEASURES),
  precision: new Float64Array(count * MEASURES),
});

/** The filter at one knot: state x (7), covariance p (7 by 7, row by row), and room for the product of a step. */
interface Filter {
  readonly x: Float64Array;
  readonly p: Float64Array;
  readonly t: Float64Array;
}

/** One scalar measurement of state a (+ state b where b ≥ 0). */
const update = (
  { x, p }: Filter,
  { gain, scaledInnovation, precision }: PassRoom,
  at: number,
  a: number,
  b: number,
  innovation: number,
  variance: number,
): void => {
  const g = at * N;
  let s = variance + p[a * N + a]!;
  if (b >= 0) s += 2 * p[a * N + b]! + p[b * N + b]!;
  const inverse = 1 / s;
  for (let i = 0; i < N; i++) gain[g + i] = (p[i * N + a]! + (b >= 0 ? p[i * N + b]! : 0)) * inverse;
  for (let i = 0; i < N; i++) {
    const gi = gain[g + i]!;
    x[i] = x[i]! + gi * innovation;
    for (let j = i; j < N; j++) {
      const value = p[i * N + j]! - gi * s * gain[g + j]!;
      p[i * N + j] = value;
      p[j * N + i] = value;
    }
  }
  scaledInnovation[at] = innovation * inverse;
  precision[at] = inverse;
};

/** Add to an entry of the covariance above its diagonal, and to its twin below. */
const addTwice = (p: Float64Array, i: number, j: number, value: number): void => {
  p[i * N + j] = p[i * N + j]! + value;
  p[j * N + i] = p[j * N + i]! + value;
};

/** Take the filter over the step from knot k to k + 1. */
const predict = ({ x, p, t }: Filter, { steps, noise, course }: MotionModel, k: number): void => {
  const s = k * STEP_SIZE;
  const ea = steps[s]!;
  const ew = steps[s + 1]!;
  const es = steps[s + 2]!;
  const na = steps[s + 3]!;
  const nw = steps[s + 4]!;
  const ns = steps[s + 5]!;
  const cos = steps[s + STEP.cos]!;
  const sin = steps[s + STEP.sin]!;
  const vs = steps[s + STEP.speedSurge]!;
  const surgeKept = steps[s + STEP.surgeKept]!;
  const errorKept = steps[s + STEP.errorKept]!;
  const speed = x[2]! + vs * x[4]!;
  x[0] = x[0]! + ea * x[2]! + ew * x[3]! + es * x[4]!;
  x[1] = x[1]! + na * x[2]! + nw * x[3]! + ns * x[4]!;
  const across = x[3]!;
  x[2] = cos * speed + sin * across;
  x[3] = -sin * speed + cos * across;
  x[4] = surgeKept * x[4]!;
  x[5] = errorKept * x[5]!;
  x[6] = errorKept * x[6]!;
  for (let j = 0; j < N; j++) {
    const v = p[14 + j]!;
    const w = p[21 + j]!;
    const a = p[28 + j]!;
    const u = v + vs * a;
    t[j] = p[j]! + ea * v + ew * w + es * a;
    t[7 + j] = p[7 + j]! + na * v + nw * w + ns * a;
    t[14 + j] = cos * u + sin * w;
    t[21 + j] = -sin * u + cos * w;
    t[28 + j] = surgeKept * a;
    t[35 + j] = errorKept * p[35 + j]!;
    t[42 + j] = errorKept * p[42 + j]!;
  }
  for (let i = 0; i < N; i++) {
    const r = i * N;
    const v = t[r + 2]!;
    const w = t[r + 3]!;
    const a = t[r + 4]!;
    const u = v + vs * a;
    p[r] = t[r]! + ea * v + ew * w + es * a;
    p[r + 1] = t[r + 1]! + na * v + nw * w + ns * a;
    p[r + 2] = cos * u + sin * w;
    p[r + 3] = -sin * u + cos * w;
    p[r + 4] = surgeKept * a;
    p[r + 5] = errorKept * t[r + 5]!;
    p[r + 6] = errorKept * t[r + 6]!;
  }
  const q = k * NOISE_SIZE;
  const east = course.east[k]!;
  const north = course.north[k]!;
  const pp = noise[q]!;
  const pv = noise[q + 1]!;
  const pa = noise[q + 2]!;
  const wpp = noise[q + NOISE.acrossPp]!;
  const wpv = noise[q + NOISE.acrossPv]!;
  p[0] = p[0]! + (east * east * pp + north * north * wpp);
  p[8] = p[8]! + (north * north * pp + east * east * wpp);
  p[16] = p[16]! + noise[q + NOISE.vv]!;
  p[24] = p[24]! + noise[q + NOISE.acrossVv]!;
  p[32] = p[32]! + noise[q + NOISE.aa]!;
  p[40] = p[40]! + noise[q + NOISE.error]!;
  p[48] = p[48]! + noise[q + NOISE.error]!;
  addTwice(p, 0, 1, east * north * (pp - wpp));
  addTwice(p, 0, 2, east * pv);
  addTwice(p, 1, 2, north * pv);
  addTwice(p, 0, 4, east * pa);
  addTwice(p, 1, 4, north * pa);
  addTwice(p, 0, 3, north * wpv);
  addTwice(p, 1, 3, -east * wpv);
  addTwice(p, 2, 4, noise[q + NOISE.va]!);
};

/** Kalman filter (Kalman 1960) over one section, scalar measurements one after the other. */
export const forwardPass = (section: Section, model: MotionModel, room: PassRoom): ForwardPass => {
  const { count, atS, eastM, northM, hasFix } = section;
  const { state, covariance } = room;
  room.precision.fill(0);
  const jumpsS: number[] = [];
  let gatedFixes = 0;
  let gatedSpeeds = 0;

  const filter: Filter = {
    x: new Float64Array(N),
    p: new Float64Array(N * N),
    t: new Float64Array(N * N),
  };
  const { x, p } = filter;
  const { wander, speedMps, speedSdMps } = model;
  const white = model.whiteSdM ** 2;
  x[0] = eastM[0]!;
  x[1] = northM[0]!;
  p[0] = FAR_M2;
  p[8] = FAR_M2;
  // Logs begin at rest more often than not; what the first fixes show widens that.
  p[16] = 1 + model.course.speedMps[0]! ** 2;
  p[24] = 0.04 + (0.3 * model.course.speedMps[0]!) ** 2;
  p[32] = model.firstSurgeMps2 ** 2;
  p[40] = wander.sdM ** 2;
  p[48] = wander.sdM ** 2;

  let lastAcceptedS = atS[0]!;
  for (let k = 0; k < count; k++) {
    let accepted = hasFix[k] === 1;
    const dx = eastM[k]! - x[0]! - x[5]!;
    const dy = northM[k]! - x[1]! - x[6]!;
    if (accepted) {
      const see = p[0]! + 2 * p[5]! + p[40]! + white;
      const snn = p[8]! + 2 * p[13]! + p[48]! + white;
      const sen = p[1]! + p[6]! + p[36]! + p[41]!;
      const distance = (dx * dx * snn - 2 * dx * dy * sen + dy * dy * see) / (see * snn - sen * sen);
      if (distance > MOTION_SETTINGS.gate) {
        if (atS[k]! - lastAcceptedS > MOTION_SETTINGS.jumpAfterS) {
          p[40] = p[40]! + dx * dx + dy * dy;
          p[48] = p[48]! + dx * dx + dy * dy;
          jumpsS.push(atS[k]!);
        } else {
          accepted = false;
          gatedFixes++;
        }
      }
    }
    for (let i = 0; i < N; i++) state[k * N + i] = x[i]!;
    for (let i = 0, c = k * PACKED; i < N; i++) for (let j = i; j < N; j++) covariance[c++] = p[i * N + j]!;
    const measures = k * MEASURES;
    if (accepted) {
      lastAcceptedS = atS[k]!;
      update(filter, room, measures, 0, 5, dx, white);
      update(filter, room, measures + 1, 1, 6, northM[k]! - x[1]! - x[6]!, white);
    }
    if (speedSdMps[k]! > 0) {
      const variance = speedSdMps[k]! ** 2;
      const innovation = speedMps[k]! - x[2]!;
      if (innovation * innovation < MOTION_SETTINGS.speedGateSds ** 2 * (variance + p[16]!))
        update(filter, room, measures + 2, 2, -1, innovation, variance);
      else gatedSpeeds++;
    }
    if (k + 1 < count) predict(filter, model, k);
  }
  return { ...room, gatedFixes, gatedSpeeds, jumpsS };
};
