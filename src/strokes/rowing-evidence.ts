import type { Interval, Track } from '../motion/track.js';
import type { CycleFigures } from './cycle-figures.js';
import type { Footfall } from './footfall.js';
import { ROWING_SETTINGS, STRENGTH_SETTINGS, WAY_SETTINGS } from './rowing-settings.js';

const within = (value: number, [low, high]: readonly [number, number]): number =>
  Math.max(low, Math.min(high, value));

/** Log odds against rowing of steps: of a heave that goes up and down as steadily as people walk, beside its share of the surge. */
const evidenceOfSteps = ({ steadiness, heaveOverSurge }: Footfall): number => {
  const { steps, steadyFrom, stepBounds } = ROWING_SETTINGS;
  return (
    steps *
    Math.max(0, steadiness - steadyFrom) *
    Math.log(within(heaveOverSurge, stepBounds) / stepBounds[0])
  );
};

/** What strokes in a row show of themselves. */
export interface ShownStrokes {
  /** Null where there are too few cycles to tell. */
  readonly figures: CycleFigures | null;
  /** Null where the upright is not known, or too little is seen. */
  readonly footfall: Footfall | null;
  /** Usual log-likelihood ratio of a stroke: waves are noise to the detector, and what fits them stands low in them. */
  readonly score: number;
}

/** Log odds that cycles in a row were rowed, by themselves alone; 0 says nothing. */
export const evidenceOfCycles = ({ figures, footfall, score }: ShownStrokes): number => {
  const set = ROWING_SETTINGS;
  if (!figures) return within(set.shortScore * (score - set.shortEven), set.shortBounds);
  const { lockedShare, lockedHarmonics, intervalChange, heaveShare, count } = figures;
  const heave = within(heaveShare ?? 0, set.heaveBounds) - set.heaveBounds[0];
  // the share of power is the square of the share of size, in which it tells evenly
  const odds =
    set.base +
    set.lockedShare * Math.sqrt(lockedShare) +
    set.lockedHarmonics * Math.sqrt(lockedHarmonics) +
    set.intervalChange * Math.log(within(intervalChange, set.intervalBounds)) +
    set.heaveShare * heave +
    set.score * within(score, set.scoreBounds) +
    (footfall ? evidenceOfSteps(footfall) : 0);
  return within(odds * Math.min(1, count / set.wholeCycles), [-set.mostEvidence, set.mostEvidence]);
};

/** Seconds of an interval that lie within another. */
const overlapS = (one: Interval, two: Interval): number =>
  Math.max(0, Math.min(one.toS, two.toS) - Math.max(one.fromS, two.fromS));

/**
 * Log odds that a stretch was rowed, by the way that the boat made in it; 0 where the track does not show it.
 * @param span on the recording's clock
 * @param few true for a few strokes in a row: they may turn a boat or back it, and make less way than a train
 */
export const evidenceOfWay = ({ fromS, toS }: Interval, track: Track | null, few: boolean): number => {
  const set = WAY_SETTINGS;
  if (!track) return 0;
  const span = { fromS: fromS - set.marginS, toS: toS + set.marginS };
  const lengthS = span.toS - span.fromS;
  const still = track.stationary.find((rest) => {
    // whoever begins from rest strokes before the boat has left it
    const inside = { fromS: rest.fromS, toS: rest.toS >= track.toS ? rest.toS : rest.toS - set.startS };
    return overlapS(span, inside) > lengthS / 2;
  });
  if (still) return still.toS - still.fromS >= set.longStillS ? set.longStillEvidence : set.stillEvidence;
  const way = track.distanceM(span.fromS, span.toS);
  if (!way || track.outages.some((outage) => overlapS(span, outage) > 0)) return 0;
  const [speedMps, sdMps] = [way.value / lengthS, way.sd / lengthS];
  if (speedMps - 2 * sdMps > set.fastestMps) return set.fastEvidence;
  if (speedMps + set.stillSds * sdMps < set.stillMps) return set.stillEvidence;
  if (speedMps + set.stillSds * sdMps < (few ? set.slowFewMps : set.slowMps)) return set.slowEvidence;
  return speedMps - 2 * sdMps > set.wayMps ? set.wayEvidence : 0;
};

/**
 * Log odds that a stretch was rowed, by what the boat file says of this crew's strokes: 0 where it says nothing.
 * Only weakness speaks: waves of another day may be stronger than any stroke.
 * @param rmsMps2 of the surge in the stretch; null where it is too short to tell
 */
export const evidenceOfStrength = (rmsMps2: number | null, strengthMps2: number | null): number => {
  const { lightShare, lightEvidence } = STRENGTH_SETTINGS;
  return strengthMps2 !== null && rmsMps2 !== null && rmsMps2 < lightShare * strengthMps2 ? lightEvidence : 0;
};
