import { quantileInPlace } from '../signal/index.js';
import type { SpeedWander, Wander } from './noise.js';
import type { PathExcess } from './path-excess.js';
import { firstOrderDensity, type Swing, secondOrderDensity, swingLikelihood, swingOf } from './swing.js';

/** How an excess is cut before its swings are taken. */
export const EXCESS_SETTINGS = Object.freeze({
  /** Shortest and longest run, s; longer ones are cut into equal parts. */
  leastS: 60,
  longestS: 600,
  /** A step between means longer than so many usual ones ends a run: what is bridged shows no error. */
  longestStep: 2.5,
});

/** What is supposed of the error of positions. */
export interface SupposedPosition {
  readonly position: Wander;
  /** Share of the position error's variance that changes smoothly, as a second-order process; the rest is first-order. */
  readonly smoothShare: number;
}

/** The swings of an excess's growth, and the density, m²/s, that white errors add to each. */
export interface ExcessSwing {
  readonly swing: Swing;
  readonly white: Float64Array;
}

/** The median step between values, s. */
const usualStep = (atS: Float64Array): number =>
  quantileInPlace(
    atS.slice(1).map((time, i) => time - atS[i]!),
    0.5,
  );

/**
 * The swings of how fast an excess grows, m/s, in each of its runs.
 * @param whiteSdM each fix's own error, sd, m
 * @param whiteM2ps density of the speed's white error, m²/s
 */
export const excessSwings = (
  { atS, metres, fixCount, begins }: PathExcess,
  whiteSdM: number,
  whiteM2ps: number,
): readonly ExcessSwing[] => {
  const { leastS, longestS, longestStep } = EXCESS_SETTINGS;
  const usualS = usualStep(atS);
  const found: ExcessSwing[] = [];
  for (let from = 0; from < atS.length; from++) {
    let to = from;
    while (to + 1 < atS.length && !begins[to + 1] && atS[to + 1]! - atS[to]! < longestStep * usualS) to++;
    const spanS = atS[to]! - atS[from]!;
    const parts = Math.ceil(spanS / longestS);
    if (spanS >= leastS) {
      const size = Math.floor((to - from) / parts);
      const stepS = spanS / (to - from);
      for (let first = from + 1; first + size - 1 <= to; first += size) {
        const growth = new Float64Array(size);
        let fixes = 0;
        for (let i = 0; i < size; i++) {
          growth[i] = (metres[first + i]! - metres[first + i - 1]!) / stepS;
          fixes += fixCount[first + i]! / size;
        }
        const swing = swingOf(growth, stepS, 0);
        const white = swing.angularHz.map((w) => whiteM2ps + (w * w * whiteSdM ** 2 * stepS) / fixes);
        found.push({ swing, white });
      }
    }
    from = to;
  }
  return found;
};

/** Density of the velocity of a wandering position error, m²/s, at each swing. */
const positionDensity = (
  angularHz: Float64Array,
  { position: { sdM, correlationS }, smoothShare }: SupposedPosition,
): Float64Array =>
  angularHz.map(
    (w) =>
      (w * sdM) ** 2 *
      ((1 - smoothShare) * firstOrderDensity(w, correlationS) +
        smoothShare * secondOrderDensity(w, correlationS)),
  );

/** What the taper lets through of densities from the mean on: two thirds of each, a sixth of its neighbours'. */
const underTaper = (densities: Float64Array): Float64Array =>
  densities.map((own, k) => {
    const longer = densities[Math.abs(k - 1)] ?? own;
    return (4 * own + longer + (densities[k + 1] ?? own)) / 6;
  });

/**
 * Log-likelihoods of an excess, up to what all suppositions share: of each error of the speed with each of the positions.
 */
export const excessLikelihoods = (
  swings: readonly ExcessSwing[],
  speeds: readonly SpeedWander[],
  positions: readonly SupposedPosition[],
): readonly Float64Array[] => {
  const sums = speeds.map(() => new Float64Array(positions.length));
  for (const { swing, white } of swings) {
    const { angularHz } = swing;
    const byPositions = positions.map((position) => underTaper(positionDensity(angularHz, position)));
    const both = new Float64Array(angularHz.length);
    speeds.forEach(({ sdMps, correlationS }, i) => {
      const own = underTaper(
        angularHz.map((w, k) => white[k]! + sdMps ** 2 * firstOrderDensity(w, correlationS)),
      );
      for (let j = 0; j < positions.length; j++) {
        const position = byPositions[j]!;
        for (let k = 0; k < both.length; k++) both[k] = own[k]! + position[k]!;
        sums[i]![j]! += swingLikelihood(swing, both);
      }
    });
  }
  return sums;
};
