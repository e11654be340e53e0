import type { ChannelDraft } from '../../src/recording/index.js';
import { valueAt } from './grid.js';
import { type HullMotion, STEP_S } from './hull.js';
import { degreesOf } from './place.js';
import type { Random } from './random.js';

/** A satellite receiver with its faults. */
export interface ReceiverAsk {
  readonly rateHz: number;
  /** Independent error of each fix, each axis, m. */
  readonly whiteSdM: number;
  /** Wandering error, each axis: sd, m, and the integral of its correlation, s. */
  readonly wanderSdM: number;
  readonly wanderS: number;
  /** sd of the Doppler speed, m/s; null logs none. */
  readonly dopplerSdMps: number | null;
  /** Wandering part of its error, as of the position: sd, m/s, and the integral of its correlation, s. */
  readonly dopplerWanderSdMps: number;
  readonly dopplerWanderS: number;
  /** Lag of the Doppler speed, s. */
  readonly dopplerLagS: number;
  /** What is logged is the mean of the speed, its white error with it, and of the true place, over the seconds before. */
  readonly speedSmoothS: number;
  readonly positionSmoothS: number;
  /** Stretches of reflected signals: from, to, s, sd of the error added, each axis, m, and its correlation, s. */
  readonly reflections: readonly (readonly [fromS: number, toS: number, sdM: number, correlationS: number])[];
  /** Jumps of a reflected signal an hour; each of 3 to 8 m, for 5 to 40 s. */
  readonly jumpsPerHour: number;
  /** Stamps cut to whole seconds. */
  readonly wholeSeconds: boolean;
  /** Stretches without fixes, s. */
  readonly outages: readonly (readonly [number, number])[];
  /** Share of fixes left out by a logger that records when it pleases. */
  readonly skipped: number;
  /** False logs speed alone. */
  readonly position: boolean;
}

/** Freedom of Student's t in the Doppler errors: tails heavier than normal. */
const TAILS = 5;
/** Share of the wander's variance in its quick-changing, first-order part; the rest is second-order. */
const FIRST_ORDER_SHARE = 0.5;

/** One axis of the wandering error: half of it first-order, half second-order Gauss-Markov. */
const makeWander = (sdM: number, correlationS: number, stepS: number, random: Random): (() => number) => {
  const keep = Math.exp(-stepS / correlationS);
  const fresh = Math.sqrt(1 - keep * keep);
  // Critically damped: R(t) = (1 + b t) exp(-b t), whose integral is 2 / b.
  const beta = 2 / correlationS;
  const parts = Math.max(1, Math.ceil(stepS / 0.1));
  const dt = stepS / parts;
  const drive = Math.sqrt(4 * beta ** 3 * dt);
  let first = random.normal();
  let second = random.normal();
  let rate = beta * random.normal();
  return () => {
    first = keep * first + fresh * random.normal();
    for (let i = 0; i < parts; i++) {
      rate += (-2 * beta * rate - beta * beta * second) * dt + drive * random.normal();
      second += rate * dt;
    }
    return sdM * (Math.sqrt(FIRST_ORDER_SHARE) * first + Math.sqrt(1 - FIRST_ORDER_SHARE) * second);
  };
};

interface Jump {
  readonly fromS: number;
  readonly toS: number;
  readonly eastM: number;
  readonly northM: number;
}

const makeJumps = (perHour: number, endS: number, random: Random): Jump[] =>
  Array.from({ length: Math.round((perHour * endS) / 3600) }, () => {
    const fromS = random.uniform() * endS;
    const size = 3 + 5 * random.uniform();
    const direction = 2 * Math.PI * random.uniform();
    return {
      fromS,
      toS: fromS + 5 + 35 * random.uniform(),
      eastM: size * Math.sin(direction),
      northM: size * Math.cos(direction),
    };
  });

/** Mean of a column over some seconds before a time. */
const meanBefore = (column: Float64Array, atS: number, lengthS: number): number => {
  if (lengthS <= 0) return valueAt(column, STEP_S, atS);
  const steps = Math.ceil(lengthS / 0.1);
  let sum = 0;
  for (let i = 0; i < steps; i++)
    sum += valueAt(column, STEP_S, Math.max(0, atS - (i + 0.5) * (lengthS / steps)));
  return sum / steps;
};

/** What the receiver logs of a hull's motion. */
export const receive = (
  ask: ReceiverAsk,
  hull: HullMotion,
  places: { readonly latDeg: Float64Array; readonly lonDeg: Float64Array },
  endS: number,
  random: Random,
): { position?: ChannelDraft; speed?: ChannelDraft } => {
  const stepS = 1 / ask.rateHz;
  const east = makeWander(ask.wanderSdM, ask.wanderS, stepS, random);
  const north = makeWander(ask.wanderSdM, ask.wanderS, stepS, random);
  const jumps = makeJumps(ask.jumpsPerHour, endS, random);
  const reflections = ask.reflections.map(([fromS, toS, sdM, correlationS]) => ({
    fromS,
    toS,
    east: makeWander(sdM, correlationS, stepS, random),
    north: makeWander(sdM, correlationS, stepS, random),
  }));
  const dopplerWander =
    ask.dopplerWanderSdMps > 0
      ? makeWander(ask.dopplerWanderSdMps, ask.dopplerWanderS, stepS, random)
      : () => 0;
  const smoothed = Math.max(1, Math.round(ask.speedSmoothS * ask.rateHz));
  const dopplerErrors: number[] = [];
  const [atS, lat, lon, speed]: [number[], number[], number[], number[]] = [[], [], [], []];
  const count = Math.floor(endS * ask.rateHz);
  for (let i = 0; i <= count; i++) {
    const stamp = i * stepS;
    const trueS = ask.wholeSeconds && i > 0 ? Math.min(endS, stamp + 0.25 * random.normal()) : stamp;
    const jump = jumps.find((candidate) => trueS >= candidate.fromS && trueS < candidate.toS);
    const off = {
      east: east() + ask.whiteSdM * random.normal() + (jump?.eastM ?? 0),
      north: north() + ask.whiteSdM * random.normal() + (jump?.northM ?? 0),
    };
    for (const { fromS, toS, east: reflectedEast, north: reflectedNorth } of reflections) {
      if (trueS < fromS || trueS >= toS) continue;
      off.east += reflectedEast();
      off.north += reflectedNorth();
    }
    dopplerErrors.push((ask.dopplerSdMps ?? 0) * random.heavy(TAILS));
    if (dopplerErrors.length > smoothed) dopplerErrors.shift();
    const doppler =
      meanBefore(hull.groundMps, trueS - ask.dopplerLagS, ask.speedSmoothS) +
      dopplerErrors.reduce((sum, error) => sum + error, 0) / dopplerErrors.length +
      dopplerWander();
    const skip = random.uniform() < ask.skipped;
    const out = ask.outages.some(([fromS, toS]) => trueS > fromS && trueS < toS);
    if (i > 0 && (skip || out)) continue;
    const latDeg = meanBefore(places.latDeg, trueS, ask.positionSmoothS);
    const degrees = degreesOf(latDeg, off.east, off.north);
    atS.push(stamp);
    lat.push(latDeg + degrees.latDeg);
    lon.push(meanBefore(places.lonDeg, trueS, ask.positionSmoothS) + degrees.lonDeg);
    speed.push(Math.max(0, Math.round(doppler * 1000) / 1000));
  }
  const clock = Float64Array.from(atS);
  return {
    ...(ask.position
      ? { position: { atS: clock, columns: [Float64Array.from(lat), Float64Array.from(lon)] } }
      : {}),
    ...(ask.dopplerSdMps === null ? {} : { speed: { atS: clock, columns: [Float64Array.from(speed)] } }),
  };
};
