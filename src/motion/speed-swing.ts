import type { SpeedWander } from './noise.js';
import { knotsWith, type Section } from './section.js';
import { MOTION_SETTINGS } from './settings.js';
import { firstOrderDensity, type Swing, swingLikelihood, swingOf } from './swing.js';

/** Where the swings of a boat's speed are looked for, and what a hull's own may be. */
export const SPEED_SWING_SETTINGS = Object.freeze({
  /** Of a stretch at way its first seconds are left out, s: a crew starts high and settles. */
  settlingS: 45,
  /** Shortest and longest stretch, s, most in a log, and the longest step between samples, s. */
  leastS: 60,
  longestS: 240,
  most: 20,
  longestStepS: 2,
  /** What a hull's own speed may vary by, sd from and to, m/s, by which factor, and its correlation times, s. */
  leastHullMps: 0.002,
  mostHullMps: 0.4,
  hullFactor: 1.5,
  hullCorrelationsS: [4, 12, 40],
});

/** Values less the straight line through them: a crew that fades does not swing. */
const levelled = (values: Float64Array): Float64Array => {
  const middle = (values.length - 1) / 2;
  let [mean, slope, squares] = [0, 0, 0];
  for (let i = 0; i < values.length; i++) {
    mean += values[i]! / values.length;
    slope += values[i]! * (i - middle);
    squares += (i - middle) ** 2;
  }
  return values.map((value, i) => value - mean - (slope / squares) * (i - middle));
};

/** The swings of a section's logged speed in stretches at way, the longest of them cut into equal parts. */
export const speedSwings = (section: Section): readonly Swing[] => {
  const { settlingS, leastS, longestS, most, longestStepS } = SPEED_SWING_SETTINGS;
  const knots = knotsWith(section.hasSpeed);
  const at = (i: number): number => section.atS[knots[i]!]!;
  const found: Swing[] = [];
  for (let from = 0; from < knots.length && found.length < most; from++) {
    let to = from;
    while (
      to < knots.length &&
      section.speedMps[knots[to]!]! > MOTION_SETTINGS.movingMps &&
      (to === from || at(to) - at(to - 1) < longestStepS)
    )
      to++;
    let settled = from;
    while (settled < to && at(settled) < at(from) + settlingS) settled++;
    const spanS = settled < to ? at(to - 1) - at(settled) : 0;
    const parts = Math.ceil(spanS / longestS);
    if (spanS >= leastS) {
      const size = Math.floor((to - settled) / parts);
      const stepS = spanS / (to - settled - 1);
      for (let first = settled; first + size <= to; first += size) {
        const values = Float64Array.from({ length: size }, (_, i) => section.speedMps[knots[first + i]!]!);
        found.push(swingOf(levelled(values), stepS, 2));
      }
    }
    from = Math.max(from, to);
  }
  return found;
};

/** What a hull's own swings may be, in each stretch: densities, and the best likelihood with no error of the speed. */
export interface HullSwings {
  readonly swing: Swing;
  readonly hulls: readonly Float64Array[];
  readonly without: number;
}

/** @param whiteM2ps density of the speed's white error, m²/s */
export const hullSwings = (section: Section, whiteM2ps: number): readonly HullSwings[] => {
  const { leastHullMps, mostHullMps, hullFactor, hullCorrelationsS } = SPEED_SWING_SETTINGS;
  return speedSwings(section).map((swing) => {
    const hulls: Float64Array[] = [];
    for (let mps = leastHullMps; mps < mostHullMps; mps *= hullFactor)
      for (const correlationS of hullCorrelationsS)
        hulls.push(swing.angularHz.map((w) => whiteM2ps + mps ** 2 * firstOrderDensity(w, correlationS)));
    return { swing, hulls, without: Math.max(...hulls.map((hull) => swingLikelihood(swing, hull))) };
  });
};

/**
 * Log-likelihood of a wandering error of the speed, given how steadily a boat was seen to move, less that of none: a
 * hull and an error together swing no less than the error alone. The hull's own swings are those that suit each
 * supposition best, in each stretch, so that a crew that rows unevenly says nothing and none says that there is one.
 */
export const steadinessLikelihood = (
  stretches: readonly HullSwings[],
  { sdMps, correlationS }: SpeedWander,
): number => {
  let sum = 0;
  for (const { swing, hulls, without } of stretches) {
    const own = swing.angularHz.map((w) => sdMps ** 2 * firstOrderDensity(w, correlationS));
    const both = new Float64Array(own.length);
    let best = Number.NEGATIVE_INFINITY;
    for (const hull of hulls) {
      for (let k = 0; k < both.length; k++) both[k] = hull[k]! + own[k]!;
      best = Math.max(best, swingLikelihood(swing, both));
    }
    sum += Math.min(0, best - without);
  }
  return sum;
};
