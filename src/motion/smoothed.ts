import { hypotenuse } from '../units/hypotenuse.js';
import { type SmoothedCovariance, smoothedCovariance, smoothedStates } from './backward-pass.js';
import { type Course, courseOf } from './course.js';
import { type ForwardPass, forwardPass, passRoom } from './forward-pass.js';
import { type Belief, type MotionModel, motionModel, STATE_COUNT, turnedModel } from './motion-model.js';
import type { Section } from './section.js';
import { MOTION_SETTINGS } from './settings.js';

/** A section after smoothing; one value a knot. */
export interface Smoothed {
  readonly section: Section;
  /** Metres east and north of the section's first fix. */
  readonly eastM: Float64Array;
  readonly northM: Float64Array;
  /** Speed along the course; may be a little below 0 near rest. */
  readonly speedMps: Float64Array;
  /** Unit vector of travel. */
  readonly courseEast: Float64Array;
  readonly courseNorth: Float64Array;
  readonly slow: Uint8Array;
  readonly pass: ForwardPass;
  readonly model: MotionModel;
  /** Covariances of the states, made when first asked for. */
  readonly covariance: () => SmoothedCovariance;
}

const column = (states: Float64Array, count: number, index: number): Float64Array => {
  const values = new Float64Array(count);
  for (let k = 0; k < count; k++) values[k] = states[k * STATE_COUNT + index]!;
  return values;
};

/** Course turned to where the smoothed velocity points; kept where the boat is slow. */
const turned = (course: Course, speed: Float64Array, across: Float64Array): Course => {
  const [east, north] = [course.east.slice(), course.north.slice()];
  for (let k = 0; k < east.length; k++) {
    if (course.slow[k] || speed[k]! < MOTION_SETTINGS.headingMps) continue;
    const e = course.east[k]! * speed[k]! + course.north[k]! * across[k]!;
    const n = course.north[k]! * speed[k]! - course.east[k]! * across[k]!;
    const length = hypotenuse(e, n);
    east[k] = e / length;
    north[k] = n / length;
  }
  return { ...course, east, north };
};

/**
 * Smooth one section: once about the course of straight lines, once about the course that this gives.
 * @param growth as of {@link motionModel}
 * @param once leave it at the course of straight lines: the errors come out the same, places and speeds nearly so
 */
export const smoothSection = (
  section: Section,
  belief: Belief,
  growth: Float64Array | null,
  once: boolean,
): Smoothed => {
  const { count } = section;
  const room = passRoom(count);
  let course = courseOf(section, belief.whiteSdM, belief.speedSdMps !== null);
  let model = motionModel(section, course, belief, growth);
  let pass = forwardPass(section, model, room);
  let states = smoothedStates(pass, model.steps, count);
  if (!once) {
    course = turned(course, column(states, count, 2), column(states, count, 3));
    model = turnedModel(model, section, course);
    pass = forwardPass(section, model, room);
    states = smoothedStates(pass, model.steps, count);
  }
  const { steps } = model;
  let covariance: SmoothedCovariance | null = null;
  return {
    section,
    eastM: column(states, count, 0),
    northM: column(states, count, 1),
    speedMps: column(states, count, 2),
    courseEast: course.east,
    courseNorth: course.north,
    slow: course.slow,
    pass,
    model,
    covariance: () => {
      covariance ??= smoothedCovariance(pass, steps, count);
      return covariance;
    },
  };
};
