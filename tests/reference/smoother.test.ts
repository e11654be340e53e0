import { describe, expect, it } from 'vitest';
import { smoothedCovariance, smoothedStates } from '../../src/motion/backward-pass.js';
import type { Course } from '../../src/motion/course.js';
import { forwardPass, passRoom } from '../../src/motion/forward-pass.js';
import {
  type MotionModel,
  NOISE,
  NOISE_SIZE,
  STATE_COUNT,
  STEP,
  STEP_SIZE,
} from '../../src/motion/motion-model.js';
import type { Section } from '../../src/motion/section.js';

/** A place that walks at random, seen with noise: the smoother's other states are held at nothing. */
const randomWalk = (seen: readonly number[]) => {
  const count = seen.length;
  const zeros = () => new Float64Array(count);
  const ones = () => new Uint8Array(count).fill(1);
  const course: Course = {
    east: zeros().fill(1),
    north: zeros(),
    speedMps: zeros(),
    slow: new Uint8Array(count),
    gainMps2: zeros(),
    turnRadps: zeros(),
  };
  const section: Section = {
    count,
    atS: Float64Array.from(seen, (_, i) => i),
    hasFix: ones(),
    hasSpeed: new Uint8Array(count),
    bridged: new Uint8Array(count),
    eastM: Float64Array.from(seen),
    northM: zeros(),
    latDeg: zeros(),
    lonDeg: zeros(),
    speedMps: zeros(),
  };
  const steps = new Float64Array(count * STEP_SIZE);
  const noise = new Float64Array(count * NOISE_SIZE);
  for (let k = 0; k < count; k++) {
    steps[k * STEP_SIZE + STEP.cos] = 1;
    noise[k * NOISE_SIZE + NOISE.pp] = 1;
  }
  const model: MotionModel = {
    course,
    wander: { sdM: 0, correlationS: 60 },
    speedWander: { sdMps: 0, correlationS: 30 },
    whiteSdM: 1,
    fine: false,
    speedMps: zeros(),
    speedSdMps: zeros(),
    steps,
    noise,
    firstWanderSdM: 0,
    firstSurgeMps2: 0,
  };
  const pass = forwardPass(section, model, passRoom(count));
  const covariance = smoothedCovariance(pass, steps, count);
  const east = (knot: number) => {
    const weights = new Float64Array(STATE_COUNT);
    weights[0] = 1;
    return { knot, weights };
  };
  return {
    states: smoothedStates(pass, steps, count),
    between: (first: number, second: number) =>
      covariance.between(first, east(first).weights, second, east(second).weights),
    varianceOfSum: (firstKnot: number, weights: readonly number[]) =>
      covariance.varianceOfSum(firstKnot, Float64Array.from(weights), new Float64Array(weights.length)),
  };
};

describe('the smoother against the Rauch-Tung-Striebel smoother (1965), Q = R = P0 = 1, m0 = 0, y = 1 2 3', () => {
  // The place is unknown at first, so a first look at 0 with R = 1 makes m0 = 0, P0 = 1 (to 1e-6).
  const walk = randomWalk([0, 1, 2, 3]);

  it('smooths to 8/7, 13/7, 17/7 (computed with SciPy from the formulas)', () => {
    for (const [knot, value] of [
      [1, 8 / 7],
      [2, 13 / 7],
      [3, 17 / 7],
    ] as const)
      expect(walk.states[knot * STATE_COUNT]).toBeCloseTo(value, 5);
  });

  // The posterior of the four places is normal with the inverse of a 4 by 4 information matrix; inverted with
  // NumPy, times 21: [[13 5 2 1] [5 10 4 2] [2 4 10 5] [1 2 5 13]].
  const TIMES_21 = [
    [10, 4, 2],
    [4, 10, 5],
    [2, 5, 13],
  ];

  it('states the covariances of the joint law, of one place and between two', () => {
    for (let first = 1; first <= 3; first++)
      for (let second = first; second <= 3; second++)
        expect(21 * walk.between(first, second)).toBeCloseTo(TIMES_21[first - 1]![second - 1]!, 4);
  });

  it('states the variance of a difference and of a sum with the covariance of its ends', () => {
    const ends = walk.varianceOfSum(1, [-1, 0, 1]);
    expect(21 * ends).toBeCloseTo(10 + 13 - 2 * 2, 4);
    const all = walk.varianceOfSum(1, [1, 1, 1]);
    expect(21 * all).toBeCloseTo(10 + 10 + 13 + 2 * (4 + 2 + 5), 4);
  });
});
