import * as z from 'zod';
import { drawnWorkout } from './drawn.js';
import { envelope, errorModels } from './envelope.js';
import { field, unknown } from './field.js';
import { sheetRow } from './sheet.js';

const number = (description: string) => z.number().nullable().meta({ description });

/** One work step, in order: what was asked beside what was rowed. */
export const workoutStepRow = z.strictObject({
  step: z
    .int()
    .min(1)
    .nullable()
    .meta({ description: 'number of the step in the plan; null for extra work' }),
  file: field.file.nullable(),
  asked_s: unknown(field.asked_s),
  asked_m: unknown(field.asked_m),
  rate_from_spm: number('lowest rate asked for, spm'),
  rate_to_spm: number('highest rate asked for, spm'),
  asked_split_s_per_500m: number('split asked for: seconds per 500 m'),
  outcome: z.enum(['rowed', 'off_rate', 'off_split', 'short', 'missed', 'extra']).nullable().meta({
    description:
      'what became of it: as asked in everything asked (length, rate, split); the first that failed: short, off_rate, off_split; null where the log does not show it, or only the plan is shown',
  }),
  start_time: unknown(field.start_time),
  start_at_s: unknown(field.start_at_s),
  end_at_s: unknown(field.end_at_s),
  duration_s: unknown(field.duration_s),
  distance_m: unknown(field.distance_m),
  stroke_count: unknown(field.stroke_count),
  rate_spm: unknown(field.rate_spm),
  within_rate_pct: number('share of strokes within the rate asked for, %'),
  time_to_rate_s: number('from the start of the step to the first of three strokes at the rate, s'),
  speed_mps: unknown(field.speed_mps),
  speed_over: field.speed_over.nullable(),
  split_s_per_500m: unknown(field.split_s_per_500m),
  split_sd_s_per_500m: number('standard deviation of split_s_per_500m by position, s'),
  distance_per_stroke_m: unknown(field.distance_per_stroke_m),
  rest_s: number('rest asked for after it, s'),
});

const count = (description: string) => z.int().min(0).meta({ description });

/** `thole workout`. */
export const workoutResult = envelope('workout', {
  error_model: errorModels,
  sheet: z.array(sheetRow),
  plan: z.string().meta({ description: 'name of the plan' }),
  plan_text: z.string().meta({ description: 'the plan as it stands on a whiteboard: 6 x 2:00 @ 28 / 1:00' }),
  steps: z.array(workoutStepRow),
  summary: z.strictObject({
    asked_count: count('steps asked for'),
    rowed_count: count('rowed as asked: length, rate and split'),
    off_rate_count: count('rowed in full, not at the rate asked for'),
    off_split_count: count('rowed in full, not at the split asked for'),
    short_count: count('cut short'),
    missed_count: count('not rowed'),
    unknown_count: count('of which the log does not show whether they were rowed as asked'),
    extra_count: count('rowed beyond the plan'),
  }),
  drawn: z
    .array(drawnWorkout)
    .optional()
    .meta({ description: 'what the pictures of a page are drawn from; no other format asks for it' }),
});

export type WorkoutStepRow = z.infer<typeof workoutStepRow>;
export type WorkoutResult = z.infer<typeof workoutResult>;
