import { hypotenuse } from '../units/hypotenuse.js';
import type { Course } from './course.js';
import type { SpeedWander, Wander } from './noise.js';
import type { Section } from './section.js';
import { MOTION_SETTINGS } from './settings.js';
import { type SurgeNoise, surgeNoise } from './surge-noise.js';

/**
 * State of the filter: metres east and north, speed along and across the course (right is positive),
 * acceleration along it, the wandering position error east and north, and the wandering error of the logged speed.
 */
export const STATE = Object.freeze({
  east: 0,
  north: 1,
  along: 2,
  across: 3,
  surge: 4,
  errorEast: 5,
  errorNorth: 6,
  speedError: 7,
});
export const STATE_COUNT = 8;

/** One step of the model, knot k to k + 1: nonzero entries of its matrix, and its noise; see `motionSteps`. */
export const STEP = Object.freeze({
  eastAlong: 0,
  eastAcross: 1,
  eastSurge: 2,
  northAlong: 3,
  northAcross: 4,
  northSurge: 5,
  cos: 6,
  sin: 7,
  speedSurge: 8,
  surgeKept: 9,
  errorKept: 10,
  speedErrorKept: 11,
});
export const STEP_SIZE = 12;

/** Noise of one step. */
export const NOISE = Object.freeze({
  pp: 0,
  pv: 1,
  pa: 2,
  vv: 3,
  va: 4,
  aa: 5,
  acrossPp: 6,
  acrossPv: 7,
  acrossVv: 8,
  error: 9,
  speedError: 10,
});
export const NOISE_SIZE = 11;

/** How a section is believed to have moved and been measured: everything the filter needs but the samples. */
export interface MotionModel {
  readonly course: Course;
  readonly wander: Wander;
  readonly speedWander: SpeedWander;
  readonly whiteSdM: number;
  /** Whether the speed shows the inside of a stroke. */
  readonly fine: boolean;
  /** Logged speed at each knot as the filter takes it, and its sd, m/s; an sd of 0 where there is none. */
  readonly speedMps: Float64Array;
  readonly speedSdMps: Float64Array;
  readonly steps: Float64Array;
  readonly noise: Float64Array;
  /** sd of the wandering position error at the first knot, m, and of the acceleration, m/s². */
  readonly firstWanderSdM: number;
  readonly firstSurgeMps2: number;
}

/** What is believed of a section's loggers. */
export interface Belief {
  readonly wander: Wander;
  readonly speedWander: SpeedWander;
  readonly whiteSdM: number;
  /** Null where the logged speed is not used. The inside of a stroke that slow sampling folds is in it. */
  readonly speedSdMps: number | null;
  /** The receiver's own part of that. */
  readonly receiverSpeedSdMps: number;
  /** Samples a second of the logged speed. */
  readonly speedRateHz: number;
  /** Whether the speed shows the inside of a stroke. */
  readonly fine: boolean;
}

/** White acceleration across the course of a boat that does not row, m²/s³; its surge makes as much. */
const driftDensity = (speedMps: number): number =>
  MOTION_SETTINGS.driftMps2 + MOTION_SETTINGS.driftPerSquare * speedMps ** 2;

/** What a step of the model goes through. */
type StepKind = 'stroke' | 'mean' | 'into stroke';

/**
 * Whether the step from a knot shows the inside of a stroke, or the stroke's mean as in a gap that is bridged; the
 * first and the last step of such a gap lead from the one to the other.
 */
const stepKind = ({ bridged, hasFix, hasSpeed }: Section, knot: number, fine: boolean): StepKind => {
  if (!fine) return 'mean';
  if (!bridged[knot]) return 'stroke';
  const isSeen = (k: number): boolean => hasFix[k] === 1 || hasSpeed[k] === 1;
  return isSeen(knot) || isSeen(knot + 1) ? 'into stroke' : 'mean';
};

/** sd of the acceleration along the course from a knot on, m/s². */
const surgeSd = (course: Course, knot: number, kind: StepKind): number => {
  if (course.slow[knot])
    return Math.sqrt(driftDensity(course.speedMps[knot]!) / (2 * MOTION_SETTINGS.driftCorrelationS));
  if (kind === 'stroke') return MOTION_SETTINGS.strokeAccelerationMps2;
  return kind === 'into stroke'
    ? MOTION_SETTINGS.bridgeStrokeMps2
    : hypotenuse(MOTION_SETTINGS.meanAccelerationMps2, MOTION_SETTINGS.gainShare * course.gainMps2[knot]!);
};

/** Its correlation time, s. */
const surgeCorrelationS = (course: Course, knot: number, kind: StepKind): number => {
  if (course.slow[knot]) return MOTION_SETTINGS.driftCorrelationS;
  return kind === 'mean' ? MOTION_SETTINGS.meanCorrelationS : MOTION_SETTINGS.strokeCorrelationS;
};

/** White acceleration across the course, m²/s³. */
const acrossDensity = (course: Course, knot: number): number => {
  if (course.slow[knot]) return driftDensity(course.speedMps[knot]!);
  const swing = course.speedMps[knot]! * course.turnRadps[knot]!;
  return MOTION_SETTINGS.steerMps2 + MOTION_SETTINGS.turnS * swing * swing;
};

/** A receiver logs the length of a noisy velocity: near rest the noise of both axes is taken off in quadrature. */
const unfolded = (speedMps: number, sdMps: number): number =>
  speedMps > MOTION_SETTINGS.foldedSds * sdMps
    ? speedMps
    : Math.sqrt(Math.max(0, speedMps ** 2 - 2 * sdMps ** 2));

/** What is logged of the speed, as the filter takes it. */
const loggedSpeeds = (section: Section, course: Course, belief: Belief) => {
  const { count, hasSpeed } = section;
  const speedMps = new Float64Array(count);
  const speedSdMps = new Float64Array(count);
  if (belief.speedSdMps === null) return { speedMps, speedSdMps };
  const sd = belief.receiverSpeedSdMps;
  const { restSpeedSdMps, restSpeedS, trustedSpeedSds } = MOTION_SETTINGS;
  // Near rest what is logged is one opinion for a long while, not a fresh one with every sample.
  const restSdMps = restSpeedSdMps * Math.sqrt(restSpeedS * belief.speedRateHz);
  for (let k = 0; k < count; k++) {
    if (!hasSpeed[k]) continue;
    if (course.slow[k]) {
      speedMps[k] = unfolded(course.speedMps[k]!, sd);
      speedSdMps[k] = course.speedMps[k]! > trustedSpeedSds * sd ? 2 * sd : restSdMps;
    } else {
      speedMps[k] = unfolded(section.speedMps[k]!, sd);
      speedSdMps[k] = belief.speedSdMps;
    }
  }
  return { speedMps, speedSdMps };
};

/** The entries of one step's matrix. */
const writeStep = (
  steps: Float64Array,
  k: number,
  { east, north }: Course,
  stepS: number,
  unit: SurgeNoise,
  kept: { readonly position: number; readonly speed: number },
): void => {
  const s = k * STEP_SIZE;
  const eastNow = east[k]!;
  const northNow = north[k]!;
  const eastNext = east[k + 1]!;
  const northNext = north[k + 1]!;
  steps[s + STEP.eastAlong] = stepS * eastNow;
  steps[s + STEP.eastAcross] = stepS * northNow;
  steps[s + STEP.eastSurge] = unit.toDistance * eastNow;
  steps[s + STEP.northAlong] = stepS * northNow;
  steps[s + STEP.northAcross] = -stepS * eastNow;
  steps[s + STEP.northSurge] = unit.toDistance * northNow;
  steps[s + STEP.cos] = eastNow * eastNext + northNow * northNext;
  steps[s + STEP.sin] = northNow * eastNext - eastNow * northNext;
  steps[s + STEP.speedSurge] = unit.toSpeed;
  steps[s + STEP.surgeKept] = unit.kept;
  steps[s + STEP.errorKept] = kept.position;
  steps[s + STEP.speedErrorKept] = kept.speed;
};

/** The noise of one step, with the variance of the surge and the density of the acceleration across. */
const writeNoise = (
  noise: Float64Array,
  k: number,
  stepS: number,
  unit: SurgeNoise,
  square: number,
  across: number,
): void => {
  const q = k * NOISE_SIZE;
  noise[q + NOISE.pp] = square * unit.pp;
  noise[q + NOISE.pv] = square * unit.pv;
  noise[q + NOISE.pa] = square * unit.pa;
  noise[q + NOISE.vv] = square * unit.vv;
  noise[q + NOISE.va] = square * unit.va;
  noise[q + NOISE.aa] = square * unit.aa;
  noise[q + NOISE.acrossPp] = (across * stepS ** 3) / 3;
  noise[q + NOISE.acrossPv] = (across * stepS ** 2) / 2;
  noise[q + NOISE.acrossVv] = across * stepS;
};

/** The surge over the step from each knot: the one before where the step is the same. */
const unitsOf = (section: Section, course: Course, fine: boolean): SurgeNoise[] => {
  const { atS, count } = section;
  const units: SurgeNoise[] = [];
  let lastStepS = -1;
  let lastCorrelationS = -1;
  let unit = surgeNoise(1, 1);
  for (let k = 0; k + 1 < count; k++) {
    const stepS = atS[k + 1]! - atS[k]!;
    const correlationS = surgeCorrelationS(course, k, stepKind(section, k, fine));
    // Even sampling differs in its last digits: to a nanosecond it is one step.
    if (Math.abs(stepS - lastStepS) > 1e-9 || correlationS !== lastCorrelationS) {
      unit = surgeNoise(stepS, correlationS);
      lastStepS = stepS;
      lastCorrelationS = correlationS;
    }
    units.push(unit);
  }
  return units;
};

/**
 * The linear model of a section about its course: velocity keeps its direction on the ground, and is reported in
 * parts along and across the course because a hull surges along it and hardly moves across.
 * @param growth factor on the variance of the wandering position error at each knot; null for none
 */
export const motionModel = (
  section: Section,
  course: Course,
  belief: Belief,
  growth: Float64Array | null = null,
): MotionModel => {
  const { atS, count } = section;
  const { fine, wander, speedWander } = belief;
  const steps = new Float64Array(count * STEP_SIZE);
  const noise = new Float64Array(count * NOISE_SIZE);
  const units = unitsOf(section, course, fine);
  for (let k = 0; k + 1 < count; k++) {
    const stepS = atS[k + 1]! - atS[k]!;
    const unit = units[k]!;
    const kept = {
      position: Math.exp(-stepS / wander.correlationS),
      speed: Math.exp(-stepS / speedWander.correlationS),
    };
    writeStep(steps, k, course, stepS, unit, kept);
    writeNoise(
      noise,
      k,
      stepS,
      unit,
      surgeSd(course, k, stepKind(section, k, fine)) ** 2,
      acrossDensity(course, k),
    );
    noise[k * NOISE_SIZE + NOISE.error] = (growth?.[k] ?? 1) * wander.sdM ** 2 * (1 - kept.position ** 2);
    noise[k * NOISE_SIZE + NOISE.speedError] = speedWander.sdMps ** 2 * (1 - kept.speed ** 2);
  }
  return {
    course,
    wander,
    speedWander,
    whiteSdM: belief.whiteSdM,
    fine,
    ...loggedSpeeds(section, course, belief),
    steps,
    noise,
    firstWanderSdM: wander.sdM * Math.sqrt(growth?.[0] ?? 1),
    firstSurgeMps2: surgeSd(course, 0, fine ? 'stroke' : 'mean'),
  };
};

/** The model about a course of the same speeds in other directions. */
export const turnedModel = (model: MotionModel, section: Section, course: Course): MotionModel => {
  const { atS, count } = section;
  const steps = new Float64Array(count * STEP_SIZE);
  const units = unitsOf(section, course, model.fine);
  for (let k = 0; k + 1 < count; k++)
    writeStep(steps, k, course, atS[k + 1]! - atS[k]!, units[k]!, {
      position: model.steps[k * STEP_SIZE + STEP.errorKept]!,
      speed: model.steps[k * STEP_SIZE + STEP.speedErrorKept]!,
    });
  return { ...model, course, steps };
};
