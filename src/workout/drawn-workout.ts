import type { DrawnWorkout } from '../contract/drawn.js';
import type { WorkoutStepRow } from '../contract/workout.js';
import { momentsOf, type Outing } from '../outing/index.js';
import { isoTimeOrNull } from '../units/instant.js';
import { atRate } from './step-row.js';

/** The step in which a moment lies; undefined between steps. */
const stepAt = (steps: readonly WorkoutStepRow[], atS: number): WorkoutStepRow | undefined =>
  steps.find(
    ({ start_at_s, end_at_s }) =>
      start_at_s !== null && end_at_s !== null && atS >= start_at_s && atS < end_at_s,
  );

/** Whether a moment's stroke is at the rate that its step asks for; null where none does. */
const isAtRate = (step: WorkoutStepRow | undefined, rateSpm: number | null): boolean | null =>
  step === undefined || step.rate_from_spm === null || step.rate_to_spm === null || rateSpm === null
    ? null
    : atRate({ rateFromSpm: step.rate_from_spm, rateToSpm: step.rate_to_spm }, rateSpm);

/** What the picture of a workout is drawn from: every stroke of an outing, in or out of the rate of its step. */
export const drawnWorkout = (outing: Outing, steps: readonly WorkoutStepRow[]): DrawnWorkout => ({
  file: outing.file,
  start_time: isoTimeOrNull(outing.recording.startUnixS),
  moments: momentsOf(outing, { fromS: 0, toS: outing.recording.durationS }).map(
    ({ at_s, speed_mps, rate_spm }) => ({
      at_s,
      speed_mps,
      rate_spm,
      at_rate: isAtRate(stepAt(steps, at_s), rate_spm),
    }),
  ),
});
