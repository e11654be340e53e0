import type { Craft } from '../../src/units/craft.js';
import { driveTimeS, pulsesOf } from './craft-shape.js';
import { addPulse } from './pulse.js';
import type { Random } from './random.js';
import { MOVED_MPS } from './ride.js';
import { isRow, type LaidScript, type LaidStep, type RowingInterval } from './script.js';

/** Grid of the true state, s. */
export const STEP_S = 0.01;

/** Water and direction in which the script is rowed. */
export interface Waters {
  readonly headingDeg: number;
  /** Speed of the stream, m/s, and the direction it flows to. */
  readonly streamMps: number;
  readonly streamToDeg: number;
  /** sd of the steering, degrees. */
  readonly steeringSdDeg: number;
}

/** What the hull did, on the grid. */
export interface HullMotion {
  readonly surgeMps2: Float64Array;
  /** Forward through the water, negative when backing. */
  readonly waterMps: Float64Array;
  readonly groundMps: Float64Array;
  readonly headingRad: Float64Array;
  readonly eastM: Float64Array;
  readonly northM: Float64Array;
  readonly alongM: Float64Array;
  /** Position within the stroke, 0 to 1, whole numbers at the catches; -1 at rest. */
  readonly cycle: Float64Array;
}

const RUN_OUT_S = 9;
const HOLD_WATER_S = 1.6;
const CREEP_MPS = 0.03;
const MOORING_S = 12;
/** How fast others bring a boat to their speed, m/s². */
const MOVED_GAIN_MPS2 = 0.6;
const STEERING_S = 15;

/** sin² window over grid points from … to whose trapezoid sum, times the step, is `total`. */
const addWindow = (signal: Float64Array, from: number, to: number, total: number): void => {
  const width = to - from;
  if (width < 2) return;
  const height = (2 * total) / (width * STEP_S);
  for (let i = from + 1; i < to; i++)
    signal[i] = signal[i]! + height * Math.sin((Math.PI * (i - from)) / width) ** 2;
};

const trapezoid = (signal: Float64Array, from: number, to: number): number => {
  let sum = 0;
  for (let i = from; i < to; i++) sum += signal[i]! + signal[i + 1]!;
  return (sum * STEP_S) / 2;
};

/** Mean of the running integral over grid points from … to. */
const meanOfIntegral = (signal: Float64Array, from: number, to: number): number => {
  let [integral, sum] = [0, 0];
  for (let i = from; i < to; i++) {
    integral += ((signal[i]! + signal[i + 1]!) * STEP_S) / 2;
    sum += integral;
  }
  return sum / Math.max(1, to - from);
};

/** Lay a rowing interval's pulses on the surge, bound to the mean speed prescribed for each stroke. */
const rowBout = (
  rowing: RowingInterval,
  surge: Float64Array,
  cycle: Float64Array,
  beginMps: number,
): void => {
  const at = rowing.strokes.map((stroke) => Math.round(stroke.catchS / STEP_S));
  at.push(Math.min(surge.length - 1, Math.round(rowing.toS / STEP_S)));
  const means = rowing.strokes.map((_, k) => {
    const [from, to] = [at[k]!, at[k + 1]!];
    addWindow(surge, from, to, -trapezoid(surge, from, to));
    for (let i = from; i < to; i++) cycle[i] = k + (i - from) / (to - from);
    return meanOfIntegral(surge, from, to);
  });
  let speed = beginMps;
  rowing.strokes.forEach((stroke, k) => {
    const next = rowing.strokes[k + 1] ?? stroke;
    const nextMean = means[k + 1] ?? means[k]!;
    const wanted = next.speedMps - nextMean;
    const driven = at[k]! + Math.round((1.15 * driveTimeS(stroke)) / STEP_S);
    addWindow(surge, at[k]!, Math.min(driven, at[k + 1]!), wanted - speed);
    speed = wanted;
  });
};

/** Drag of a gliding hull, share of speed lost per metre: an eight still makes 2.5 m/s after 10 s. */
const glidePerM = (craft: Craft): number => (craft === '8+' ? 0.021 : craft.startsWith('4') ? 0.026 : 0.034);

/** Speed while nobody rows: an exponential run-out with a creep to zero, or a glide. */
const coast = (
  surge: Float64Array,
  speed: Float64Array,
  from: number,
  to: number,
  steps: readonly LaidStep[],
  craft: Craft,
): void => {
  let step = 0;
  for (let i = from; i < to; i++) {
    while (step < steps.length - 1 && steps[step]!.toS <= (i + 1) * STEP_S) step++;
    const laid = steps[step]!.step;
    const tauS = !isRow(laid) && laid.holdWater ? HOLD_WATER_S : RUN_OUT_S;
    const v = speed[i]!;
    if (!isRow(laid) && laid.movedBy) {
      const leftS = steps[step]!.toS - i * STEP_S;
      const wanted = Math.min(MOVED_MPS[laid.movedBy], MOVED_GAIN_MPS2 * Math.max(0, leftS));
      const most = MOVED_GAIN_MPS2 * STEP_S;
      const change = Math.max(-most, Math.min(most, wanted - v));
      surge[i] = surge[i]! + change / STEP_S;
      speed[i + 1] = v + change;
      continue;
    }
    const run =
      !isRow(laid) && laid.glide === true
        ? glidePerM(craft) * v * v + CREEP_MPS / RUN_OUT_S
        : Math.max(Math.abs(v), CREEP_MPS) / tauS;
    const loss = Math.min(Math.abs(v) / STEP_S, run);
    surge[i] = surge[i]! - Math.sign(v) * loss;
    speed[i + 1] = v + surge[i]! * STEP_S;
  }
};

const smoothStep = (share: number): number => share * share * (3 - 2 * share);

/** Direction the bow points, rad from north, with the turns of the script and the crew's steering. */
const headings = (script: LaidScript, waters: Waters, count: number, random: Random): Float64Array => {
  const heading = new Float64Array(count);
  let base = waters.headingDeg;
  let step = 0;
  let [wander, rate] = [0, 0];
  const beta = 2 / STEERING_S;
  // Second-order Gauss-Markov process of unit variance, driven at the grid.
  const drive = Math.sqrt(4 * beta ** 3 * STEP_S);
  for (let i = 0; i < count; i++) {
    const atS = i * STEP_S;
    while (step < script.steps.length - 1 && script.steps[step]!.toS <= atS) {
      base += script.steps[step]!.step.turnDeg ?? 0;
      step++;
    }
    const laid = script.steps[step]!;
    const share = Math.min(1, (atS - laid.fromS) / (laid.toS - laid.fromS));
    const turned = (laid.step.turnDeg ?? 0) * (isRow(laid.step) ? share : smoothStep(share));
    rate += (-2 * beta * rate - beta * beta * wander) * STEP_S + drive * random.normal();
    wander += rate * STEP_S;
    heading[i] = ((base + turned + waters.steeringSdDeg * wander) * Math.PI) / 180;
  }
  return heading;
};

/** 1 where the boat is free, 0 where it is tied up, with a soft change between. */
const freedom = (script: LaidScript, count: number): Float64Array => {
  const free = new Float64Array(count).fill(1);
  for (const { fromS, toS, step } of script.steps) {
    if (isRow(step) || !step.moored) continue;
    for (let i = Math.ceil(fromS / STEP_S); i < Math.min(count, toS / STEP_S); i++) {
      const since = Math.min(1, (i * STEP_S - fromS) / MOORING_S);
      const before = Math.min(1, (toS - i * STEP_S) / 2);
      free[i] = 1 - smoothStep(Math.min(since, before));
    }
  }
  return free;
};

/** What the hull does when a script is rowed: kinematics only, no forces. */
export const rowHull = (script: LaidScript, craft: Craft, waters: Waters, random: Random): HullMotion => {
  const count = Math.floor(script.endS / STEP_S) + 1;
  const surgeMps2 = new Float64Array(count);
  const waterMps = new Float64Array(count);
  const cycle = new Float64Array(count).fill(-1);
  for (const { strokes } of script.rowingIntervals)
    for (const stroke of strokes)
      for (const pulse of pulsesOf(stroke)) addPulse(surgeMps2, STEP_S, stroke.catchS + pulse.atS, pulse);
  let done = 0;
  for (const rowing of script.rowingIntervals) {
    const from = Math.round(rowing.strokes[0]!.catchS / STEP_S);
    const to = Math.min(count - 1, Math.round(rowing.toS / STEP_S));
    coast(surgeMps2, waterMps, done, from, script.steps, craft);
    rowBout(rowing, surgeMps2, cycle, waterMps[from]!);
    for (let i = from; i < to; i++)
      waterMps[i + 1] = waterMps[i]! + ((surgeMps2[i]! + surgeMps2[i + 1]!) * STEP_S) / 2;
    done = to;
  }
  coast(surgeMps2, waterMps, done, count - 1, script.steps, craft);

  const headingRad = headings(script, waters, count, random);
  const free = freedom(script, count);
  const streamTo = (waters.streamToDeg * Math.PI) / 180;
  const [streamEast, streamNorth] = [
    waters.streamMps * Math.sin(streamTo),
    waters.streamMps * Math.cos(streamTo),
  ];
  const groundMps = new Float64Array(count);
  const eastM = new Float64Array(count);
  const northM = new Float64Array(count);
  const alongM = new Float64Array(count);
  let [east, north] = [0, 0];
  for (let i = 0; i < count; i++) {
    const eastNow = free[i]! * (waterMps[i]! * Math.sin(headingRad[i]!) + streamEast);
    const northNow = free[i]! * (waterMps[i]! * Math.cos(headingRad[i]!) + streamNorth);
    groundMps[i] = Math.hypot(eastNow, northNow);
    if (i > 0) {
      eastM[i] = eastM[i - 1]! + ((east + eastNow) * STEP_S) / 2;
      northM[i] = northM[i - 1]! + ((north + northNow) * STEP_S) / 2;
      alongM[i] = alongM[i - 1]! + ((groundMps[i - 1]! + groundMps[i]!) * STEP_S) / 2;
    }
    [east, north] = [eastNow, northNow];
  }
  return { surgeMps2, waterMps, groundMps, headingRad, eastM, northM, alongM, cycle };
};
