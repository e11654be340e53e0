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

/** Kalman filter (Kalman 1960) over one section, scalar measurements one after the other. */
export const forwardPass = (section: Section, model: MotionModel, room: PassRoom): ForwardPass => {
  const { count } = section;
  const { state, covariance, gain, scaledInnovation, precision } = room;
  precision.fill(0);
  const jumpsS: number[] = [];
  let [gatedFixes, gatedSpeeds] = [0, 0];

  const x = new Float64Array(N);
  const p = new Float64Array(N * N);
  const t = new Float64Array(N * N);
  const { wander, steps, noise } = model;
  const white = model.whiteSdM ** 2;
  x[0] = section.eastM[0]!;
  x[1] = section.northM[0]!;
  p[0] = FAR_M2;
  p[8] = FAR_M2;
  // Logs begin at rest more often than not; what the first fixes show widens that.
  p[16] = 1 + model.course.speedMps[0]! ** 2;
  p[24] = 0.04 + (0.3 * model.course.speedMps[0]!) ** 2;
  p[32] = model.firstSurgeMps2 ** 2;
  p[40] = wander.sdM ** 2;
  p[48] = wander.sdM ** 2;

  /** One scalar measurement of state a (+ state b where b ≥ 0). */
  const update = (k: number, measure: number, a: number, b: number, innovation: number, variance: number) => {
    const g = (k * MEASURES + measure) * N;
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
    scaledInnovation[k * MEASURES + measure] = innovation * inverse;
    precision[k * MEASURES + measure] = inverse;
  };

  const predict = (k: number) => {
    const s = k * STEP_SIZE;
    const [ea, ew, es] = [steps[s]!, steps[s + 1]!, steps[s + 2]!];
    const [na, nw, ns] = [steps[s + 3]!, steps[s + 4]!, steps[s + 5]!];
    const [cos, sin, vs] = [steps[s + STEP.cos]!, steps[s + STEP.sin]!, steps[s + STEP.speedSurge]!];
    const [surgeKept, errorKept] = [steps[s + STEP.surgeKept]!, steps[s + STEP.errorKept]!];
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
      const [v, w, a] = [p[14 + j]!, p[21 + j]!, p[28 + j]!];
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
      const [v, w, a] = [t[r + 2]!, t[r + 3]!, t[r + 4]!];
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
    const [east, north] = [model.course.east[k]!, model.course.north[k]!];
    const [pp, pv, pa] = [noise[q]!, noise[q + 1]!, noise[q + 2]!];
    const [wpp, wpv] = [noise[q + NOISE.acrossPp]!, noise[q + NOISE.acrossPv]!];
    const add = (i: number, j: number, value: number) => {
      p[i * N + j] = p[i * N + j]! + value;
      if (i !== j) p[j * N + i] = p[j * N + i]! + value;
    };
    add(0, 0, east * east * pp + north * north * wpp);
    add(0, 1, east * north * (pp - wpp));
    add(1, 1, north * north * pp + east * east * wpp);
    add(0, 2, east * pv);
    add(1, 2, north * pv);
    add(0, 4, east * pa);
    add(1, 4, north * pa);
    add(0, 3, north * wpv);
    add(1, 3, -east * wpv);
    add(2, 2, noise[q + NOISE.vv]!);
    add(2, 4, noise[q + NOISE.va]!);
    add(4, 4, noise[q + NOISE.aa]!);
    add(3, 3, noise[q + NOISE.acrossVv]!);
    add(5, 5, noise[q + NOISE.error]!);
    add(6, 6, noise[q + NOISE.error]!);
  };

  let lastAcceptedS = section.atS[0]!;
  for (let k = 0; k < count; k++) {
    let accepted = section.hasFix[k] === 1;
    const [dx, dy] = [section.eastM[k]! - x[0]! - x[5]!, section.northM[k]! - x[1]! - x[6]!];
    if (accepted) {
      const see = p[0]! + 2 * p[5]! + p[40]! + white;
      const snn = p[8]! + 2 * p[13]! + p[48]! + white;
      const sen = p[1]! + p[6]! + p[36]! + p[41]!;
      const distance = (dx * dx * snn - 2 * dx * dy * sen + dy * dy * see) / (see * snn - sen * sen);
      if (distance > MOTION_SETTINGS.gate) {
        if (section.atS[k]! - lastAcceptedS > MOTION_SETTINGS.jumpAfterS) {
          p[40] = p[40]! + dx * dx + dy * dy;
          p[48] = p[48]! + dx * dx + dy * dy;
          jumpsS.push(section.atS[k]!);
        } else {
          accepted = false;
          gatedFixes++;
        }
      }
    }
    for (let i = 0; i < N; i++) state[k * N + i] = x[i]!;
    for (let i = 0, c = k * PACKED; i < N; i++) for (let j = i; j < N; j++) covariance[c++] = p[i * N + j]!;
    if (accepted) {
      lastAcceptedS = section.atS[k]!;
      update(k, 0, 0, 5, dx, white);
      update(k, 1, 1, 6, section.northM[k]! - x[1]! - x[6]!, white);
    }
    if (model.speedSdMps[k]! > 0) {
      const variance = model.speedSdMps[k]! ** 2;
      const innovation = model.speedMps[k]! - x[2]!;
      if (innovation * innovation < MOTION_SETTINGS.speedGateSds ** 2 * (variance + p[16]!))
        update(k, 2, 2, -1, innovation, variance);
      else gatedSpeeds++;
    }
    if (k + 1 < count) predict(k);
  }
  return { ...room, gatedFixes, gatedSpeeds, jumpsS };
};
