import type { Warning } from '../recording/index.js';
import { courseOf } from './course.js';
import { type ForwardPass, forwardPass, MEASURES, passRoom } from './forward-pass.js';
import { type Belief, motionModel } from './motion-model.js';
import { positionWhiteSd, speedWhiteSd, type Wander } from './noise.js';
import { knotsWith, type Section } from './section.js';
import { MOTION_SETTINGS } from './settings.js';
import type { Interval } from './track.js';

/** How a receiver is found to be worse than it is believed to be. */
export const GROWTH_SETTINGS = Object.freeze({
  /** Factors on the sd of the wandering position error that are tried, and the weight of each before. */
  factors: [1, 1.5, 2.5, 4, 7],
  weights: [1, 0.3, 0.1, 0.03, 0.01],
  /** Fixes are looked at this far apart, s: the wandering error shows over seconds. */
  stepS: 1,
  /** Of reflections the fixes within so many seconds to either side tell; 20 to 60. */
  nearS: 30,
  /** Weight of another factor there than in the whole log. */
  elsewhere: 0.01,
  /** A single innovation counts no more than this, in its variances: strays are no wander. */
  mostSquare: 12,
  /** Fewer fixes than this tell nothing. */
  fewest: 30,
  /** Fixes of a slow boat from which on they alone speak for the whole log: how hulls are rowed hides the error. */
  fewestSlow: 40,
  /** Growth of the variance below this is none; from the next on it is said; a stretch that has this many times what
   * the section has is one of reflected signals. */
  seen: 1.15,
  said: 1.5,
  reflected: 3,
});

/** By how much the wandering error's variance is larger than believed. */
export interface WanderGrowth {
  /** Over the whole section; 1 where it is as believed. */
  readonly whole: number;
  /** At each knot. */
  readonly near: Float64Array;
}

/** A section with fixes some seconds apart, each with the mean of the speeds since the last. */
const thinned = (section: Section, stepS: number): { readonly thin: Section; readonly knots: Int32Array } => {
  const { count, atS, hasFix, hasSpeed, bridged, speedMps } = section;
  const kept: number[] = [];
  const speeds: number[] = [];
  let [sum, used] = [0, 0];
  let lastS = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < count; k++) {
    if (hasSpeed[k]) {
      sum += speedMps[k]!;
      used++;
    }
    if (!(hasFix[k] || bridged[k]) || atS[k]! - lastS < stepS - MOTION_SETTINGS.sameInstantS) continue;
    kept.push(k);
    speeds.push(used > 0 ? sum / used : Number.NaN);
    [sum, used, lastS] = [0, 0, atS[k]!];
  }
  const knots = Int32Array.from(kept);
  const numbers = (values: Float64Array): Float64Array => Float64Array.from(knots, (k) => values[k]!);
  const flags = (values: Uint8Array): Uint8Array => Uint8Array.from(knots, (k) => values[k]!);
  return {
    knots,
    thin: {
      count: knots.length,
      atS: numbers(atS),
      hasFix: flags(hasFix),
      hasSpeed: Uint8Array.from(speeds, (mps) => (Number.isNaN(mps) ? 0 : 1)),
      bridged: flags(bridged),
      eastM: numbers(section.eastM),
      northM: numbers(section.northM),
      latDeg: numbers(section.latDeg),
      lonDeg: numbers(section.lonDeg),
      speedMps: Float64Array.from(speeds, (mps) => (Number.isNaN(mps) ? 0 : mps)),
    },
  };
};

/** Log-likelihood of each knot's fix given those before, up to what all models share. */
const fixLikelihoods = (section: Section, { precision, scaledInnovation }: ForwardPass): Float64Array => {
  const { mostSquare } = GROWTH_SETTINGS;
  const found = new Float64Array(section.count);
  for (let k = 1; k < section.count; k++) {
    if (!section.hasFix[k]) continue;
    for (let measure = k * MEASURES; measure < k * MEASURES + 2; measure++) {
      const precise = precision[measure]!;
      // A fix that the gate left out is as unlikely as one may be.
      found[k]! -=
        precise === 0 ? mostSquare / 2 : Math.min(mostSquare, scaledInnovation[measure]! ** 2 / precise) / 2;
      if (precise > 0) found[k]! += Math.log(precise) / 2;
    }
  }
  return found;
};

/** Running sums, one more than values. */
const sumsOf = (values: Float64Array): Float64Array => {
  const sums = new Float64Array(values.length + 1);
  for (let i = 0; i < values.length; i++) sums[i + 1] = sums[i]! + values[i]!;
  return sums;
};

/** Weights times the exponentials of log-likelihoods, as shares of their sum. */
const posterior = (weights: readonly number[], logs: readonly number[]): number[] => {
  const most = Math.max(...logs);
  const shares = weights.map((weight, i) => weight * Math.exp(logs[i]! - most));
  const sum = shares.reduce((total, share) => total + share, 0);
  return shares.map((share) => share / sum);
};

/**
 * How much worse than believed a receiver is, over a section and at each knot, from the innovations of filters that
 * believe in several sizes of the wandering error (a bank of models: Magill 1965, IEEE Trans. AC 10:434): a worse
 * receiver shows everywhere, reflected signals for a while. Never better than believed.
 * @returns null where the section is too short to tell
 */
export const wanderGrowth = (section: Section, belief: Belief): WanderGrowth | null => {
  const { factors, weights, stepS, nearS, elsewhere, fewest, fewestSlow, seen } = GROWTH_SETTINGS;
  const { thin, knots } = thinned(section, stepS);
  if (knots.length < fewest) return null;
  const speedSdMps = belief.speedSdMps === null ? null : speedWhiteSd(thin);
  const course = courseOf(thin, belief.whiteSdM, speedSdMps !== null);
  const room = passRoom(thin.count);
  const slowCount = knotsWith(course.slow).length;
  const likelihoods = factors.map((factor) => {
    const wander = { ...belief.wander, sdM: factor * belief.wander.sdM };
    const model = motionModel(thin, course, {
      ...belief,
      wander,
      whiteSdM: positionWhiteSd(section, wander) ?? belief.whiteSdM,
      speedSdMps,
      receiverSpeedSdMps: speedSdMps ?? 0,
      speedRateHz: 1 / stepS,
      fine: false,
    });
    return fixLikelihoods(thin, forwardPass(thin, model, room));
  });
  const sums = likelihoods.map(sumsOf);
  const squares = (shares: readonly number[]): number =>
    shares.reduce((sum, share, i) => sum + share * factors[i]! ** 2, 0);
  const whole = posterior(
    weights,
    likelihoods.map((values) =>
      values.reduce((sum, value, k) => (slowCount < fewestSlow || course.slow[k] ? sum + value : sum), 0),
    ),
  );
  const before = whole.map((share) => share + elsewhere);
  const near = new Float64Array(section.count);
  let [low, high, knot] = [0, 0, 0];
  for (let i = 0; i < thin.count; i++) {
    while (thin.atS[low]! < thin.atS[i]! - nearS) low++;
    while (high < thin.count && thin.atS[high]! <= thin.atS[i]! + nearS) high++;
    const value = squares(
      posterior(
        before,
        sums.map((sum) => sum[high]! - sum[low]!),
      ),
    );
    const until = i + 1 < thin.count ? knots[i + 1]! : section.count;
    for (; knot < until; knot++) near[knot] = value;
  }
  if (near.every((value) => value < seen)) return null;
  const found = squares(whole);
  return { whole: found < seen ? 1 : found, near };
};

/** Stretches of a section in which the fixes wander far more than in the rest of it. */
const reflectedStretches = ({ atS, count }: Section, { near, whole }: WanderGrowth): Interval[] => {
  const found: Interval[] = [];
  for (let from = 0; from < count; from++) {
    if (near[from]! < GROWTH_SETTINGS.reflected * whole) continue;
    let to = from;
    while (to + 1 < count && near[to + 1]! >= GROWTH_SETTINGS.reflected * whole) to++;
    found.push({ fromS: atS[from]!, toS: atS[to]! });
    from = to;
  }
  return found;
};

/** What is said of a receiver that is worse than it was believed to be. */
export const growthWarnings = (
  file: string,
  sections: readonly Section[],
  growths: readonly (WanderGrowth | null)[],
  believed: Wander,
): Warning[] => {
  const worst = growths.reduce((most, growth) => Math.max(most, growth?.whole ?? 1), 1);
  const warnings: Warning[] = growths.flatMap((growth, i) =>
    growth === null
      ? []
      : reflectedStretches(sections[i]!, growth).map(({ fromS, toS }) => ({
          code: 'position-reflections',
          file,
          where: `at ${fromS.toFixed(1)} s`,
          message: `the positions wander far more than elsewhere for ${(toS - fromS).toFixed(0)} s, as they do where signals are reflected; ± is wider there`,
        })),
  );
  if (worst >= GROWTH_SETTINGS.said)
    warnings.push({
      code: 'receiver-worse',
      file,
      where: null,
      message: `the positions wander more than the error of ${believed.sdM.toFixed(1)} m that was assumed; ${(believed.sdM * Math.sqrt(worst)).toFixed(1)} m is used, so ± is wider`,
    });
  return warnings;
};
