import type { WorkoutStepRow } from '../contract/workout.js';
import type { Interval } from '../motion/index.js';
import { type Outing, stretchOf } from '../outing/index.js';
import type { Piece } from '../pieces/index.js';
import type { Stroke } from '../strokes/stroke.js';
import { isoTimeOrNull } from '../units/instant.js';
import { splitOfSpeed } from '../units/speed.js';
import type { AskedStep } from './asked-step.js';

/** How a step that was rowed is judged. */
export const STEP_SETTINGS = Object.freeze({
  /** A stroke within this of the rate asked for is at the rate, spm; 0.5 to 1.5: crews hold to about 1. */
  closeSpm: 1,
  /** The rate is reached at the first of so many strokes at it; 2 to 4. */
  settled: 3,
  /** Less than this share of the strokes at the rate, %: most of the step was rowed at another; 40 to 60. */
  leastWithinPct: 50,
  /** Splits within this of the one asked for are as asked, s per 500 m; 1 to 2: crews hold to about 1 (common practice). */
  closeSplitS: 1,
  /** A split whose sd is larger than this cannot be held against one, s per 500 m; 1 to 2. */
  mostSplitSdS: 1.5,
  /** Off the split beyond so many sd of it; 2: 95 of 100 that are at it lie within. */
  splitSds: 2,
  /** Less than this share of the length asked for is short … */
  shortShare: 0.95,
  /** … and so long before its end, s; 2 to 5: about a stroke. */
  shortS: 3,
});

/** Where a step was rowed; a first stroke's catch mark may stand a moment before the movement it makes. */
export type RowedInterval = Interval & Pick<Piece, 'strokesFromS'>;

const blank = {
  file: null,
  start_time: null,
  start_at_s: null,
  end_at_s: null,
  duration_s: null,
  distance_m: null,
  stroke_count: null,
  rate_spm: null,
  within_rate_pct: null,
  time_to_rate_s: null,
  speed_mps: null,
  speed_over: null,
  split_s_per_500m: null,
  split_sd_s_per_500m: null,
  distance_per_stroke_m: null,
} as const;

/** A step as it was asked for, before or without rowing. */
export const askedRow = (step: AskedStep, outcome: 'missed' | null): WorkoutStepRow => ({
  step: step.step,
  asked_s: step.askedS,
  asked_m: step.askedM,
  rate_from_spm: step.rateFromSpm,
  rate_to_spm: step.rateToSpm,
  asked_split_s_per_500m: step.splitS,
  outcome,
  rest_s: step.restS,
  ...blank,
});

/** Whether a stroke is at the rate that its step asks for. */
export const atRate = (step: Pick<AskedStep, 'rateFromSpm' | 'rateToSpm'>, rateSpm: number | null): boolean =>
  rateSpm !== null &&
  rateSpm >= step.rateFromSpm! - STEP_SETTINGS.closeSpm &&
  rateSpm <= step.rateToSpm! + STEP_SETTINGS.closeSpm;

const rateFigures = (step: AskedStep | null, strokes: readonly Stroke[], fromS: number) => {
  const rated = strokes.filter(({ rateSpm }) => rateSpm !== null);
  if (step === null || step.rateFromSpm === null || rated.length === 0)
    return { within_rate_pct: null, time_to_rate_s: null };
  const { settled } = STEP_SETTINGS;
  const first = rated.findIndex(
    (_, i) =>
      i + settled <= rated.length &&
      rated.slice(i, i + settled).every(({ rateSpm }) => atRate(step, rateSpm)),
  );
  return {
    within_rate_pct: (100 * rated.filter(({ rateSpm }) => atRate(step, rateSpm)).length) / rated.length,
    time_to_rate_s: first < 0 ? null : Math.max(0, rated[first]!.atS - fromS),
  };
};

const isShort = (step: AskedStep, durationS: number, distanceM: number | null): boolean => {
  const { shortShare, shortS } = STEP_SETTINGS;
  if (step.askedS !== null) return durationS < shortShare * step.askedS && step.askedS - durationS > shortS;
  if (step.askedM === null || distanceM === null || distanceM >= step.askedM) return false;
  const leftS = ((step.askedM - distanceM) / distanceM) * durationS;
  return distanceM < shortShare * step.askedM && leftS > shortS;
};

/** True where what was asked was met, null where the log cannot tell. */
type Met = boolean | null;

const rateMet = (step: AskedStep, rateSpm: number | null, withinPct: number | null): Met => {
  if (step.rateFromSpm === null) return true;
  if (rateSpm === null || withinPct === null) return null;
  return atRate(step, rateSpm) && withinPct >= STEP_SETTINGS.leastWithinPct;
};

const splitMet = (step: AskedStep, splitS: number | null, sdS: number | null): Met => {
  if (step.splitS === null) return true;
  if (splitS === null || sdS === null) return null;
  const { closeSplitS, splitSds, mostSplitSdS } = STEP_SETTINGS;
  if (Math.abs(splitS - step.splitS) > closeSplitS + splitSds * sdS) return false;
  return sdS > mostSplitSdS ? null : true;
};

/** What became of a step: the first of length, rate and split that was not as asked. */
const outcomeOf = (short: boolean, rate: Met, split: Met): WorkoutStepRow['outcome'] => {
  if (short) return 'short';
  if (rate === false) return 'off_rate';
  if (split === false) return 'off_split';
  return rate === null || split === null ? null : 'rowed';
};

/**
 * A step, or work beyond the plan, as it was rowed.
 * @param step null for work beyond the plan
 * @param within its ends; strokes count from `strokesFromS`
 */
export const rowedRow = (outing: Outing, step: AskedStep | null, within: RowedInterval): WorkoutStepRow => {
  const stretch = stretchOf(outing, within, within.strokesFromS);
  const { startUnixS } = outing.recording;
  const distanceM = stretch.distance?.value ?? null;
  const splitS = stretch.speedMps ? splitOfSpeed(stretch.speedMps) : null;
  const splitSdS =
    splitS === null || !stretch.distance ? null : (splitS * stretch.distance.sd) / stretch.distance.value;
  const rates = rateFigures(step, stretch.strokes ?? [], within.fromS);
  return {
    step: step?.step ?? null,
    file: outing.file,
    asked_s: step?.askedS ?? null,
    asked_m: step?.askedM ?? null,
    rate_from_spm: step?.rateFromSpm ?? null,
    rate_to_spm: step?.rateToSpm ?? null,
    asked_split_s_per_500m: step?.splitS ?? null,
    outcome:
      step === null
        ? 'extra'
        : outcomeOf(
            isShort(step, stretch.durationS, distanceM),
            rateMet(step, stretch.rateSpm, rates.within_rate_pct),
            splitMet(step, splitS, splitSdS),
          ),
    start_time: isoTimeOrNull(startUnixS === null ? null : startUnixS + within.fromS),
    start_at_s: within.fromS,
    end_at_s: within.toS,
    duration_s: stretch.durationS,
    distance_m: distanceM,
    stroke_count: stretch.strokes?.length ?? null,
    rate_spm: stretch.rateSpm,
    ...rates,
    speed_mps: stretch.speedMps,
    speed_over: outing.stream === null ? 'ground' : 'water',
    split_s_per_500m: splitS,
    split_sd_s_per_500m: splitSdS,
    distance_per_stroke_m: stretch.distancePerStrokeM,
    rest_s: step?.restS ?? null,
  };
};
