import type { BoatFile } from '../contract/boat.js';
import { excessLikelihoods, excessSwings } from './excess-likelihood.js';
import { type Glide, glideLikelihood, glidesOf } from './glide.js';
import type { SpeedWander, Wander } from './noise.js';
import { pathExcess } from './path-excess.js';
import type { Section } from './section.js';
import { hullSwings, steadinessLikelihood } from './speed-swing.js';

/** What is supposed of the wandering errors of speed and position, and how it is weighed before the log is seen. */
export const SPEED_WANDER_SETTINGS = Object.freeze({
  /** sd of the speed's, m/s, and weight of each: Doppler speeds are good to 0.02 to 0.05 m/s for seconds to half a
   * minute, common practice; the large ones stand for strokes that slow sampling folds into slow swings. */
  sdsMps: [0.01, 0.02, 0.03, 0.05, 0.08, 0.13, 0.2, 0.3],
  sdWeights: [1, 2, 1, 0.4, 0.1, 0.03, 0.01, 0.005],
  /** Its correlation time, s, and weight of each. A log of an hour hardly shows what wanders over half a minute, and
   * nothing widens a stated sd as much: what is not seen of it is believed to be there. */
  correlationsS: [1.5, 3, 6, 12, 30],
  correlationWeights: [1, 1, 1, 2, 5],
  /** Weight of none; 0.1 to 1: no receiver is without, but some logs cannot show it. */
  noneWeight: 0.3,
  /** sd of the position's where nothing is given, m, weights, and correlation times, s. */
  positionSdsM: [0.5, 1, 1.5, 2, 3, 4.5],
  positionWeights: [0.25, 0.5, 0.8, 1, 0.8, 0.5],
  positionCorrelationsS: [30, 90, 270],
  /** Where a boat file or the log gives it: shares of what is given, and weights. */
  givenShares: [1, 1.5, 2.25],
  givenWeights: [1, 0.3, 0.1],
  /** Share of glides that are none; 0.02 to 0.1. */
  falseGlideShare: 0.05,
  /** Shares of the position error's variance that change smoothly: 0 is a first-order process. */
  smoothShares: [0, 0.5],
  /** The excess is taken in means of so many seconds: longer than most strokes. */
  meanS: 2,
});

/** What is known of a section's loggers before. */
export interface KnownErrors {
  readonly wander: Wander;
  /** Whether the wander is given by a boat file or the log, and no default. */
  readonly isGiven: boolean;
  readonly whiteSdM: number;
  readonly speedSdMps: number;
  readonly receiverSpeedSdMps: number;
  readonly speedRateHz: number;
  /** Whether the speed shows the inside of a stroke: only then do its slow swings not hold strokes, folded. */
  readonly isFine: boolean;
}

interface Weighed<Value> {
  readonly value: Value;
  readonly weight: number;
}

const positionsOf = ({ wander, isGiven }: KnownErrors): Weighed<Wander>[] => {
  const set = SPEED_WANDER_SETTINGS;
  if (isGiven)
    return set.givenShares.map((share, i) => ({
      value: { ...wander, sdM: share * wander.sdM },
      weight: set.givenWeights[i]!,
    }));
  return set.positionSdsM.flatMap((sdM, i) =>
    set.positionCorrelationsS.map((correlationS) => ({
      value: { sdM, correlationS },
      weight: set.positionWeights[i]!,
    })),
  );
};

/** No wander of the speed. */
export const NO_SPEED_WANDER: SpeedWander = Object.freeze({ sdMps: 0, correlationS: 30 });

/** What is believed of it before the log is seen. */
export const USUAL_SPEED_WANDER: SpeedWander = Object.freeze({ sdMps: 0.02, correlationS: 10 });

const sumOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);

const speedsOf = (): Weighed<SpeedWander>[] => {
  const set = SPEED_WANDER_SETTINGS;
  return [
    { value: NO_SPEED_WANDER, weight: set.noneWeight * sumOf(set.correlationWeights) },
    ...set.sdsMps.flatMap((sdMps, i) =>
      set.correlationsS.map((correlationS, j) => ({
        value: { sdMps, correlationS },
        weight: set.sdWeights[i]! * set.correlationWeights[j]!,
      })),
    ),
  ];
};

/** One first-order process that adds as much variance to a sum of the speed as a weighed mean of many. */
const meanWander = (
  all: readonly { readonly value: SpeedWander; readonly logWeight: number }[],
): SpeedWander => {
  const most = all.reduce((top, { logWeight }) => Math.max(top, logWeight), Number.NEGATIVE_INFINITY);
  let [weights, squares, logS] = [0, 0, 0];
  for (const { value, logWeight } of all) {
    const weight = Math.exp(logWeight - most);
    // The variance of a sum over a time T is 2 sd² τ T.
    const square = weight * value.sdMps ** 2 * value.correlationS;
    weights += weight;
    squares += square;
    logS += square * Math.log(value.correlationS);
  }
  if (squares === 0) return NO_SPEED_WANDER;
  const correlationS = Math.exp(logS / squares);
  return { sdMps: Math.sqrt(squares / weights / correlationS), correlationS };
};

/**
 * Log-likelihood of each supposition by all glides. Each glide may be none, whatever it shows: a crew that touches the
 * water, a boat that is pushed off.
 */
const glidesLikelihoods = (glides: readonly Glide[], speeds: readonly SpeedWander[]): readonly number[] => {
  const share = SPEED_WANDER_SETTINGS.falseGlideShare;
  const sums = new Array<number>(speeds.length).fill(0);
  for (const glide of glides) {
    const own = speeds.map((speed) => glideLikelihood(glide, speed));
    const best = Math.max(...own);
    for (let i = 0; i < own.length; i++) sums[i]! += Math.log((1 - share) * Math.exp(own[i]! - best) + share);
  }
  return sums;
};

/**
 * The wandering part of the error of a logged speed, as far as the log shows it: in glides, where a hull slows down
 * smoothly, in how steadily the boat was seen to move, and in how far the summed speed runs ahead of the fixes. What the
 * log does not show stays as it was weighed before.
 */
export const speedWanderOf = (section: Section, known: KnownErrors): SpeedWander => {
  const { meanS, smoothShares } = SPEED_WANDER_SETTINGS;
  const whiteM2ps = known.speedSdMps ** 2 / known.speedRateHz;
  const excess = excessSwings(pathExcess(section, meanS), known.whiteSdM, whiteM2ps);
  const glides = glidesOf(section, known.receiverSpeedSdMps);
  const hulls = known.isFine ? hullSwings(section, whiteM2ps) : [];
  const positions = positionsOf(known).flatMap(({ value: position, weight }) =>
    smoothShares.map((smoothShare) => ({ position, smoothShare, weight })),
  );
  const speeds = speedsOf();
  const values = speeds.map(({ value }) => value);
  const byGlides = glidesLikelihoods(glides, values);
  const byExcess = excessLikelihoods(excess, values, positions);
  const weighed = speeds.flatMap(({ value, weight }, i) => {
    const before = Math.log(weight) + byGlides[i]! + steadinessLikelihood(hulls, value);
    return positions.map((position, j) => ({
      value,
      logWeight: before + Math.log(position.weight) + byExcess[i]![j]!,
    }));
  });
  return meanWander(weighed);
};

/** The wander that a boat file gives; null where it gives none. */
export const boatSpeedWander = (boat: BoatFile | null): SpeedWander | null =>
  boat?.speed_wander_sd_mps === undefined
    ? null
    : {
        sdMps: boat.speed_wander_sd_mps,
        correlationS: boat.speed_wander_s ?? NO_SPEED_WANDER.correlationS,
      };
