import { bearingOf, type Step, stepBetween } from '../geodesy/index.js';
import { median } from '../signal/index.js';
import type { Stream } from '../units/stream.js';
import { lengthBetween } from './length-between.js';
import type { Interval, Track } from './track.js';

/** How a stream is read from rowing both ways. */
export const STREAM_SETTINGS = Object.freeze({
  /** Rowing is looked at in windows of this length, s; 20 to 60: several strokes, little turning. */
  windowS: 30,
  /** A window whose chord is less than this share of its path turned, and is left out; 0.95 to 0.99. */
  straightShare: 0.97,
  /** Slowest mean speed of a window that counts as work, m/s. */
  leastMps: 1.5,
  /** Windows point along the common line to within this, degrees; 20 to 40. */
  axisDeg: 30,
  /** Windows of one direction with no longer break than this are one leg, s. */
  breakS: 120,
  /** Shortest leg, windows. */
  leastWindows: 2,
  /** Least sd of a leg's own speed, share of it: crews hold power to some percent, and wind differs. */
  legShare: 0.02,
  /** Speed through the water goes with the rate to this power (constant work a stroke). */
  rateExponent: 1 / 3,
});

/** What rowing both ways tells of the stream. */
export interface StreamEstimate {
  /** Along the line that was rowed; what flows across it does not show. */
  readonly stream: Stream;
  readonly sdMps: number;
  readonly legCount: number;
  /** Mean rate of the legs with the stream / against it; null where a leg has no rate. */
  readonly rateRatio: number | null;
}

/** An estimate, or the reason why there is none. */
export type StreamFinding =
  | { readonly estimate: StreamEstimate; readonly why: null }
  | { readonly estimate: null; readonly why: string };

interface Window {
  readonly atS: number;
  /** Mean velocity over ground, m/s. */
  readonly velocity: Step;
  readonly rateSpm: number | null;
}

interface Leg {
  readonly sign: 1 | -1;
  readonly speedMps: number;
  readonly rateSpm: number | null;
}

const windowsOf = (
  track: Track,
  stretches: readonly Interval[],
  rateSpmOf: (window: Interval) => number | null,
): Window[] => {
  const { windowS, straightShare, leastMps } = STREAM_SETTINGS;
  const windows: Window[] = [];
  for (const stretch of stretches)
    for (let fromS = stretch.fromS; fromS + windowS <= stretch.toS; fromS += windowS) {
      const toS = fromS + windowS;
      if (track.outages.some((gap) => gap.fromS < toS && gap.toS > fromS)) continue;
      const [from, to] = [track.placeAt(fromS), track.placeAt(toS)];
      const pathM = lengthBetween(track, fromS, toS);
      if (!from || !to || pathM === null) continue;
      const step = stepBetween(from, to);
      const chordM = Math.hypot(step.eastM, step.northM);
      if (chordM < leastMps * windowS || chordM < straightShare * pathM) continue;
      windows.push({
        atS: fromS,
        velocity: { eastM: step.eastM / windowS, northM: step.northM / windowS },
        rateSpm: rateSpmOf({ fromS, toS }),
      });
    }
  return windows;
};

/** The line that most windows lie along, either way: mean of doubled angles (Mardia 1972). */
const axisOf = (windows: readonly Window[]): Step => {
  let [cosine, sine] = [0, 0];
  for (const { velocity } of windows) {
    const double = 2 * Math.atan2(velocity.eastM, velocity.northM);
    cosine += Math.cos(double);
    sine += Math.sin(double);
  }
  const angle = Math.atan2(sine, cosine) / 2;
  return { eastM: Math.sin(angle), northM: Math.cos(angle) };
};

const legsOf = (windows: readonly Window[], axis: Step): Leg[] => {
  const { axisDeg, breakS, windowS, leastWindows } = STREAM_SETTINGS;
  const legs: { sign: 1 | -1; speeds: number[]; rates: (number | null)[]; lastS: number }[] = [];
  for (const { atS, velocity, rateSpm } of windows) {
    const along = velocity.eastM * axis.eastM + velocity.northM * axis.northM;
    const speed = Math.hypot(velocity.eastM, velocity.northM);
    if (Math.abs(along) < speed * Math.cos((axisDeg * Math.PI) / 180)) continue;
    const sign = along > 0 ? 1 : -1;
    let leg = legs.at(-1);
    if (leg === undefined || leg.sign !== sign || atS - leg.lastS > breakS + windowS) {
      leg = { sign, speeds: [], rates: [], lastS: atS };
      legs.push(leg);
    }
    leg.speeds.push(Math.abs(along));
    leg.rates.push(rateSpm);
    leg.lastS = atS;
  }
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  return legs
    .filter(({ speeds }) => speeds.length >= leastWindows)
    .map(({ sign, speeds, rates }) => {
      const known = rates.filter((rate) => rate !== null);
      return { sign, speedMps: mean(speeds), rateSpm: known.length === rates.length ? mean(known) : null };
    });
};

/** Geometric mean rate of the legs of one direction over that of the other. */
const rateRatioOf = (legs: readonly Leg[], withStream: 1 | -1): number => {
  const meanLog = (sign: 1 | -1): number => {
    const own = legs.filter((leg) => leg.sign === sign);
    return own.reduce((sum, { rateSpm }) => sum + Math.log(rateSpm!), 0) / own.length;
  };
  return Math.exp(meanLog(withStream) - meanLog(withStream === 1 ? -1 : 1));
};

/**
 * The stream along the line that a boat rowed both ways: each leg's speed over ground is the crew's speed
 * through the water, which goes with the cube root of its rate, plus the stream with or against it; least
 * squares over the legs. A steady wind, or a crew that works harder one way at the same rate, looks the same.
 * @param stretches when the boat was rowed
 * @param rateSpmOf rate within a window; where it is null for any leg, legs count as rowed alike
 */
export const estimateStream = (
  track: Track,
  stretches: readonly Interval[],
  rateSpmOf: (window: Interval) => number | null,
): StreamFinding => {
  const windows = windowsOf(track, stretches, rateSpmOf);
  const axis = axisOf(windows);
  const legs = legsOf(windows, axis);
  const none = (why: string): StreamFinding => ({ estimate: null, why });
  if (!legs.some(({ sign }) => sign > 0) || !legs.some(({ sign }) => sign < 0))
    return none('the boat was not rowed both ways along one line for a minute each');
  const rates = legs.map(({ rateSpm }) => rateSpm);
  const known = rates.filter((rate) => rate !== null);
  const usual = known.length === rates.length ? median(known) : null;
  // u = W ρ + s·sign, solved by the normal equations of two unknowns.
  const rows = legs.map(({ sign, speedMps, rateSpm }) => ({
    sign,
    speedMps,
    effort: usual === null || rateSpm === null ? 1 : (rateSpm / usual) ** STREAM_SETTINGS.rateExponent,
  }));
  const sum = (value: (row: (typeof rows)[number]) => number) =>
    rows.reduce((total, row) => total + value(row), 0);
  const [ee, es, count] = [
    sum(({ effort }) => effort ** 2),
    sum(({ effort, sign }) => effort * sign),
    rows.length,
  ];
  const [eu, su] = [
    sum(({ effort, speedMps }) => effort * speedMps),
    sum(({ sign, speedMps }) => sign * speedMps),
  ];
  const determinant = ee * count - es * es;
  const water = (eu * count - su * es) / determinant;
  const along = (ee * su - es * eu) / determinant;
  const left = sum(({ effort, sign, speedMps }) => (speedMps - water * effort - along * sign) ** 2);
  const legVariance = Math.max((STREAM_SETTINGS.legShare * water) ** 2, count > 2 ? left / (count - 2) : 0);
  const flow = { eastM: axis.eastM * Math.sign(along), northM: axis.northM * Math.sign(along) };
  return {
    estimate: {
      stream: { speedMps: Math.abs(along), toDeg: bearingOf(flow) },
      sdMps: Math.sqrt((legVariance * ee) / determinant),
      legCount: count,
      rateRatio: usual === null ? null : rateRatioOf(legs, along >= 0 ? 1 : -1),
    },
    why: null,
  };
};
