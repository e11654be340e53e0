import type { Curve, CurvePoint } from '../contract/curve.js';
import { median } from '../signal/index.js';
import { theilSen } from '../signal/theil-sen.js';
import { grouped } from '../units/grouped.js';
import type { CurveBlock } from './curve-block.js';
import { inflation, plateauOf } from './curve-plateau.js';

/** What a curve needs, and how its points are drawn. */
export const CURVE_SETTINGS = Object.freeze({
  /** Fewest blocks; 10 to 20: below, the exponent is anybody's guess. */
  fewestBlocks: 12,
  /** Highest rate / lowest rate at least; 1.15 to 1.3: 18 to 22 is 1.22. */
  leastRange: 1.2,
  /** Width of the rate classes of the points, spm. */
  classSpm: 2,
});

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

const pointOf = (blocks: readonly CurveBlock[]): CurvePoint => {
  const rate = mean(blocks.map(({ rateSpm }) => rateSpm));
  const speed = mean(blocks.map(({ speedMps }) => speedMps));
  const squares = blocks.reduce((sum, { speedMps }) => sum + (speedMps - speed) ** 2, 0);
  const count = blocks.length;
  return {
    rate_spm: rate,
    speed_mps: speed,
    speed_sd_mps: count < 2 ? null : Math.sqrt(squares / (count - 1) / count),
    distance_per_stroke_m: (60 * speed) / rate,
    stroke_count: blocks.reduce((sum, { strokeCount }) => sum + strokeCount, 0),
  };
};

const pointsOf = (blocks: readonly CurveBlock[]): CurvePoint[] => {
  const classes = grouped(blocks, ({ rateSpm }) => Math.round(rateSpm / CURVE_SETTINGS.classSpm));
  return [...classes].sort(([a], [b]) => a - b).map(([, members]) => pointOf(members));
};

/** Why there is no curve, in words for a coach. */
export type NoCurve = { readonly why: string };

/**
 * Rate against speed of steady blocks: Theil-Sen on logs below the plateau, where one shows.
 * @param blocks in time order
 */
export const curveOf = (blocks: readonly CurveBlock[], speedOver: Curve['speed_over']): Curve | NoCurve => {
  const { fewestBlocks, leastRange } = CURVE_SETTINGS;
  if (blocks.length === 0)
    return {
      why: 'No stretch of steady strokes with a known speed was found, and a curve is made of them: give outings whose logs hold both strokes and positions.',
    };
  if (blocks.length < fewestBlocks)
    return {
      why: `There ${blocks.length === 1 ? 'is only 1 stretch' : `are only ${blocks.length} stretches`} of steady strokes, and a curve needs ${fewestBlocks}: give more outings, or longer pieces.`,
    };
  const rates = blocks.map(({ rateSpm }) => rateSpm);
  const [low, high] = [Math.min(...rates), Math.max(...rates)];
  if (high / low < leastRange)
    return {
      why: `All steady strokes are at ${low.toFixed(0)} to ${high.toFixed(0)} spm, too narrow for a curve: give outings with other rates.`,
    };
  const x = rates.map(Math.log);
  const y = blocks.map(({ speedMps }) => Math.log(speedMps));
  const plateau = plateauOf(x, y);
  const below = x.map((_, i) => i).filter((i) => plateau === null || rates[i]! <= plateau.rateSpm);
  const [xs, ys] = [below.map((i) => x[i]!), below.map((i) => y[i]!)];
  const line = theilSen(xs, ys)!;
  const errors = ys.map((value, i) => value - line.intercept - line.slope * xs[i]!);
  const sure = theilSen(xs, ys, inflation(errors))!;
  const reference = Math.exp(median(xs));
  return {
    exponent: line.slope,
    exponent_low: sure.slopeLow,
    exponent_high: sure.slopeHigh,
    plateau_spm: plateau?.rateSpm ?? null,
    exponent_beyond: plateau?.exponentBeyond ?? null,
    reference_rate_spm: reference,
    reference_speed_mps: Math.exp(line.intercept + line.slope * Math.log(reference)),
    rate_from_spm: low,
    rate_to_spm: high,
    speed_over: speedOver,
    stroke_count: blocks.reduce((sum, { strokeCount }) => sum + strokeCount, 0),
    points: pointsOf(blocks),
  };
};

/** How far beyond its rates a curve is still asked, as a share; 0.02 to 0.05: about 1 spm. */
const BEYOND = 0.03;

/** What a curve gives at a rate, m/s; null beyond the rates that it is made of. */
export const curveSpeed = (curve: Curve, rateSpm: number): number | null => {
  if (rateSpm < curve.rate_from_spm * (1 - BEYOND) || rateSpm > curve.rate_to_spm * (1 + BEYOND)) return null;
  const bought = Math.min(rateSpm, curve.plateau_spm ?? rateSpm);
  const speed = curve.reference_speed_mps * (bought / curve.reference_rate_spm) ** curve.exponent;
  return speed * (rateSpm / bought) ** (curve.exponent_beyond ?? 0);
};
