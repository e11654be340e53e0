import type { ErrorModel, Interval } from '../motion/track.js';
import type { AlongFixes } from './along-fixes.js';
import type { Moment } from './first-movement.js';

/** How a hull goes from one speed to another once the crew changes what it does, by the time constant τ. */
type Shape =
  /** Speed falls or rises exponentially: resting blades, or the hull taking the speed of new work. */
  | 'exponential'
  /** 1 / (1 + t/τ): drag as the square of speed, blades clear of the water. */
  | 'glide';

/** What is looked for. */
export interface PaceChangeAsk {
  /** Where the change may lie, s. */
  readonly within: Interval;
  /** Speeds before and after as far as they are known beforehand, m/s, with their sd. */
  readonly before: { readonly mps: number; readonly sdMps: number };
  readonly after: { readonly mps: number; readonly sdMps: number };
  /** Time constant that the craft's hull is likely to show, s, and the sd of its logarithm. */
  readonly tauS: number;
  readonly tauSpread: number;
  readonly shapes: readonly Shape[];
  /** Is the crew rowing before, and after? Where it is, a logged speed swings with the stroke. */
  readonly rowedBefore: boolean;
  readonly rowedAfter: boolean;
  /** What else tells the moment, as a catch mark or a cadence does; null for nothing. */
  readonly known: Moment | null;
}

/** How the moment of a change of pace is read from a track. */
export const PACE_CHANGE_SETTINGS = Object.freeze({
  /** Steps in which the moment is sought, s, first and refined; a fix is a second away from the next. */
  stepS: 0.5,
  fineS: 0.1,
  /** Time constants tried: the likely one times these. */
  taus: [0.2, 0.3, 0.45, 0.67, 1, 1.5, 2.2] as readonly number[],
  /** Way that crews lose or gain beside a steady speed, m²/s: 2 % of 5 m/s over some strokes. */
  unsteadyM2PerS: 0.015,
  /** sd of a fix about the mean of the stroke, m: the hull swings about its mean place. */
  surgeWayM: 0.15,
  /** sd of a logged speed in a boat that is not rowed, m/s: the receiver's own, and what the shape misses. */
  quietSdMps: 0.12,
  /** Share of the probability that what else tells the moment is mistaken; 0.01 to 0.05. */
  mistaken: 0.02,
  /** Logged speeds err alike for some seconds: each counts for so much of an independent one; 0.3 to 1. */
  speedWeight: 0.6,
});

/** ∫f of a shape after so long, in units of τ. */
const wayOf = (shape: Shape, u: number): number => (shape === 'glide' ? Math.log1p(u) : 1 - Math.exp(-u));

/** f of a shape after so long, in units of τ. */
const speedOf = (shape: Shape, u: number): number => (shape === 'glide' ? 1 / (1 + u) : Math.exp(-u));

/** A whitening filter of series of fixes: what it keeps of an innovation, and the scale of one. */
interface Whitening {
  readonly gain: Float64Array;
  readonly scale: Float64Array;
}

/** Whitens fixes of a Gauss-Markov error and the crew's unsteadiness beside white noise: a filter's innovations. */
const whiteningOf = (fixes: AlongFixes, model: ErrorModel): Whitening => {
  const { unsteadyM2PerS, surgeWayM } = PACE_CHANGE_SETTINGS;
  const { atS, meanOf } = fixes;
  const white = model.whiteSdM ** 2 / meanOf + surgeWayM ** 2 / Math.min(4, meanOf);
  const count = atS.length;
  const [gain, scale] = [new Float64Array(count), new Float64Array(count)];
  // Only differences count, so the walk of the wandering error is a walk without end here.
  const walkPerS = (2 * model.positionSdM ** 2) / model.correlationS + unsteadyM2PerS;
  let variance = 1e6;
  for (let i = 0; i < count; i++) {
    if (i > 0) variance += walkPerS * (atS[i]! - atS[i - 1]!);
    const sum = variance + white;
    gain[i] = variance / sum;
    scale[i] = 1 / Math.sqrt(sum);
    variance *= 1 - gain[i]!;
  }
  return { gain, scale };
};

const whitened = ({ gain, scale }: Whitening, values: Float64Array): Float64Array => {
  let state = 0;
  return values.map((value, i) => {
    const innovation = value - state;
    state += gain[i]! * innovation;
    return innovation * scale[i]!;
  });
};

/** Log likelihood of a change at a moment, the speeds before and after integrated out. */
const likelihoodOf = (fixes: AlongFixes, model: ErrorModel, ask: PaceChangeAsk) => {
  const { quietSdMps, speedWeight } = PACE_CHANGE_SETTINGS;
  const { atS, alongM, speedAtS, speedMps } = fixes;
  const whitening = whiteningOf(fixes, model);
  const { gain, scale } = whitening;
  const y = whitened(whitening, alongM);
  // Time since the change is whitened as the difference of two series that no change alters.
  const time = whitened(whitening, atS);
  const one = whitened(whitening, new Float64Array(atS.length).fill(1));
  const yyOfFixes = y.reduce((sum, value) => sum + value * value, 0);
  const rowedSd = Math.max(quietSdMps, model.speedSdMps ?? 0);
  const [sdBefore, sdAfter] = [ask.rowedBefore ? rowedSd : quietSdMps, ask.rowedAfter ? rowedSd : quietSdMps];
  return (changeS: number, tauS: number, shape: Shape): number => {
    // Normal equations of the two speeds, their priors first.
    let [pp, pq, qq] = [ask.before.sdMps ** -2, 0, ask.after.sdMps ** -2];
    let [py, qy] = [pp * ask.before.mps, qq * ask.after.mps];
    let yy = pp * ask.before.mps ** 2 + qq * ask.after.mps ** 2 + yyOfFixes;
    let state = 0;
    for (let i = 0; i < y.length; i++) {
      const since = atS[i]! - changeS;
      const innovation = (since > 0 ? tauS * wayOf(shape, since / tauS) : since) - state;
      state += gain[i]! * innovation;
      const p = innovation * scale[i]!;
      const q = time[i]! - changeS * one[i]! - p;
      pp += p * p;
      pq += p * q;
      qq += q * q;
      py += p * y[i]!;
      qy += q * y[i]!;
    }
    let logs = 0;
    for (let i = 0; i < speedAtS.length; i++) {
      const since = speedAtS[i]! - changeS;
      const f = since > 0 ? speedOf(shape, since / tauS) : 1;
      const sd = since > 0 ? sdAfter : sdBefore;
      const weight = speedWeight / (sd * sd);
      const v = speedMps[i]!;
      pp += weight * f * f;
      pq += weight * f * (1 - f);
      qq += weight * (1 - f) ** 2;
      py += weight * f * v;
      qy += weight * (1 - f) * v;
      yy += weight * v * v;
      logs -= speedWeight * Math.log(sd);
    }
    const determinant = pp * qq - pq * pq;
    const explained = (qq * py * py - 2 * pq * py * qy + pp * qy * qy) / determinant;
    return logs - (yy - explained) / 2 - Math.log(determinant) / 2;
  };
};

/**
 * When a boat changed its pace, from what its hull did: the likelihood of every moment, over speeds before and
 * after, time constants and shapes, as one probability; its mean and sd.
 * @param fixes about the change: some seconds of the pace before, and of what came after
 */
export const paceChange = (fixes: AlongFixes, model: ErrorModel, ask: PaceChangeAsk): Moment => {
  const { stepS, fineS, taus, mistaken } = PACE_CHANGE_SETTINGS;
  const likelihood = likelihoodOf(fixes, model, ask);
  const spread = (fromS: number, toS: number, eachS: number): Moment => {
    const count = Math.max(1, Math.round((toS - fromS) / eachS));
    const logs: number[] = [];
    for (let i = 0; i <= count; i++) {
      const at = fromS + (i * (toS - fromS)) / count;
      const other =
        ask.known === null
          ? 0
          : Math.log(Math.exp(-0.5 * ((at - ask.known.atS) / ask.known.sdS) ** 2) + mistaken);
      const each: number[] = [];
      for (const shape of ask.shapes)
        for (const times of taus)
          each.push(likelihood(at, ask.tauS * times, shape) - 0.5 * (Math.log(times) / ask.tauSpread) ** 2);
      const most = Math.max(...each);
      logs.push(other + most + Math.log(each.reduce((sum, log) => sum + Math.exp(log - most), 0)));
    }
    const most = Math.max(...logs);
    let [sum, first, second] = [0, 0, 0];
    logs.forEach((log, i) => {
      const share = Math.exp(log - most);
      const at = (i * (toS - fromS)) / count;
      sum += share;
      first += share * at;
      second += share * at * at;
    });
    const mean = first / sum;
    return { atS: fromS + mean, sdS: Math.sqrt(Math.max(0, second / sum - mean * mean)) };
  };
  const { fromS, toS } = ask.within;
  const rough = spread(fromS, toS, stepS);
  if (rough.sdS > 2 * stepS) return rough;
  return spread(Math.max(fromS, rough.atS - 4 * stepS), Math.min(toS, rough.atS + 4 * stepS), fineS);
};
