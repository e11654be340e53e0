import { type MotionModel, STATE_COUNT, STEP, STEP_SIZE } from './motion-model.js';
import { covarianceOverStep, PACKED, ROWS } from './packed-steps.js';
import type { Section } from './section.js';
import { MOTION_SETTINGS } from './settings.js';

const N = STATE_COUNT;
/** Scalar measurements a knot can hold: fix east, fix north, speed. */
export const MEASURES = 3;

/** What the filter leaves for the smoother: predictions, gains and innovations of every knot. */
export interface ForwardPass {
  /** Predicted state and its covariance (packed), before the knot's own samples. */
  readonly state: Float64Array;
  readonly covariance: Float64Array;
  /** Of each measure: gain (8 numbers), innovation / its variance, 1 / its variance; 0 where not used. */
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

/** The filter at one knot: state x (8), its covariance p (packed), and room for a covariance with a measure. */
interface Filter {
  readonly x: Float64Array;
  readonly p: Float64Array;
  readonly seen: Float64Array;
}

/** Where the variances of the states stand in a packed matrix: its diagonal. */
const VARIANCE = Object.freeze({
  east: 0,
  north: 8,
  along: 15,
  across: 21,
  surge: 26,
  errorEast: 30,
  errorNorth: 33,
  speedError: 35,
});

/** One scalar measurement of state a + state b, b > a. */
const update = (
  { x, p, seen }: Filter,
  { gain, scaledInnovation, precision }: PassRoom,
  at: number,
  a: number,
  b: number,
  innovation: number,
  variance: number,
): void => {
  const g = at * N;
  for (let i = 0; i < N; i++) {
    seen[i] = (i < a ? p[ROWS[i]! + a]! : p[ROWS[a]! + i]!) + (i < b ? p[ROWS[i]! + b]! : p[ROWS[b]! + i]!);
  }
  const s = variance + seen[a]! + seen[b]!;
  const inverse = 1 / s;
  for (let i = 0; i < N; i++) gain[g + i] = seen[i]! * inverse;
  for (let i = 0, c = 0; i < N; i++) {
    const own = seen[i]!;
    x[i] = x[i]! + gain[g + i]! * innovation;
    for (let j = i; j < N; j++, c++) p[c] = p[c]! - own * gain[g + j]!;
  }
  scaledInnovation[at] = innovation * inverse;
  precision[at] = inverse;
};

/** Take the filter over the step from knot k to k + 1. */
const predict = ({ x, p }: Filter, model: MotionModel, k: number): void => {
  const { steps } = model;
  const s = k * STEP_SIZE;
  const along = x[2]!;
  const across = x[3]!;
  const surge = x[4]!;
  const cos = steps[s + STEP.cos]!;
  const sin = steps[s + STEP.sin]!;
  const errorKept = steps[s + STEP.errorKept]!;
  const speed = along + steps[s + STEP.speedSurge]! * surge;
  x[0] = x[0]! + steps[s]! * along + steps[s + 1]! * across + steps[s + 2]! * surge;
  x[1] = x[1]! + steps[s + 3]! * along + steps[s + 4]! * across + steps[s + 5]! * surge;
  x[2] = cos * speed + sin * across;
  x[3] = -sin * speed + cos * across;
  x[4] = steps[s + STEP.surgeKept]! * surge;
  x[5] = errorKept * x[5]!;
  x[6] = errorKept * x[6]!;
  x[7] = steps[s + STEP.speedErrorKept]! * x[7]!;
  covarianceOverStep(p, model, k);
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
    p: new Float64Array(PACKED),
    seen: new Float64Array(N),
  };
  const { x, p } = filter;
  const { speedMps, speedSdMps } = model;
  const white = model.whiteSdM ** 2;
  x[0] = eastM[0]!;
  x[1] = northM[0]!;
  p[VARIANCE.east] = FAR_M2;
  p[VARIANCE.north] = FAR_M2;
  // Logs begin at rest more often than not; what the first fixes show widens that.
  p[VARIANCE.along] = 1 + model.course.speedMps[0]! ** 2;
  p[VARIANCE.across] = 0.04 + (0.3 * model.course.speedMps[0]!) ** 2;
  p[VARIANCE.surge] = model.firstSurgeMps2 ** 2;
  p[VARIANCE.errorEast] = model.firstWanderSdM ** 2;
  p[VARIANCE.errorNorth] = model.firstWanderSdM ** 2;
  p[VARIANCE.speedError] = model.speedWander.sdMps ** 2;

  let lastAcceptedS = atS[0]!;
  for (let k = 0; k < count; k++) {
    let accepted = hasFix[k] === 1;
    const dx = eastM[k]! - x[0]! - x[5]!;
    const dy = northM[k]! - x[1]! - x[6]!;
    if (accepted) {
      const see = p[VARIANCE.east]! + 2 * p[5]! + p[VARIANCE.errorEast]! + white;
      const snn = p[VARIANCE.north]! + 2 * p[13]! + p[VARIANCE.errorNorth]! + white;
      const sen = p[1]! + p[6]! + p[12]! + p[31]!;
      const distance = (dx * dx * snn - 2 * dx * dy * sen + dy * dy * see) / (see * snn - sen * sen);
      if (distance > MOTION_SETTINGS.gate) {
        if (atS[k]! - lastAcceptedS > MOTION_SETTINGS.jumpAfterS) {
          p[VARIANCE.errorEast] = p[VARIANCE.errorEast]! + dx * dx + dy * dy;
          p[VARIANCE.errorNorth] = p[VARIANCE.errorNorth]! + dx * dx + dy * dy;
          jumpsS.push(atS[k]!);
        } else {
          accepted = false;
          gatedFixes++;
        }
      }
    }
    state.set(x, k * N);
    covariance.set(p, k * PACKED);
    const measures = k * MEASURES;
    if (accepted) {
      lastAcceptedS = atS[k]!;
      update(filter, room, measures, 0, 5, dx, white);
      update(filter, room, measures + 1, 1, 6, northM[k]! - x[1]! - x[6]!, white);
    }
    if (speedSdMps[k]! > 0) {
      const variance = speedSdMps[k]! ** 2;
      const innovation = speedMps[k]! - x[2]! - x[7]!;
      const seen = variance + p[VARIANCE.along]! + 2 * p[20]! + p[VARIANCE.speedError]!;
      if (innovation * innovation < MOTION_SETTINGS.speedGateSds ** 2 * seen)
        update(filter, room, measures + 2, 2, 7, innovation, variance);
      else gatedSpeeds++;
    }
    if (k + 1 < count) predict(filter, model, k);
  }
  return { ...room, gatedFixes, gatedSpeeds, jumpsS };
};
