import * as z from 'zod';
import { envelope, errorModels } from './envelope.js';
import { field, unknown } from './field.js';

/** One stroke. */
export const strokeRow = z.strictObject({
  stroke: field.stroke,
  time: unknown(field.time),
  at_s: field.at_s,
  rate_spm: unknown(field.rate_spm),
  speed_mps: unknown(field.speed_mps),
  speed_over: field.speed_over,
  split_s_per_500m: unknown(field.split_s_per_500m),
  distance_m: unknown(field.distance_m),
  cumulative_m: unknown(field.cumulative_m),
  drive_s: unknown(field.drive_s),
  speed_min_mps: unknown(field.speed_min_mps),
  speed_max_mps: unknown(field.speed_max_mps),
  speed_variation: unknown(field.speed_variation),
  extra_drag_power_pct: unknown(field.extra_drag_power_pct),
  catch_deceleration_mps2: unknown(field.catch_deceleration_mps2),
  heart_rate_bpm: unknown(field.heart_rate_bpm),
  source: z.enum(['imu', 'speed', 'cadence']).meta({ description: 'what the stroke was found in' }),
  confidence: field.confidence,
  kind: z.enum(['rowing', 'single', 'backing']).meta({
    description: 'one of many, one alone, or one that backed the boat down as far as the track shows',
  }),
});

/** `thole strokes`. */
export const strokesResult = envelope('strokes', {
  error_model: errorModels,
  craft: unknown(field.craft),
  strokes: z.array(strokeRow),
});

export type StrokeRow = z.infer<typeof strokeRow>;
export type StrokesResult = z.infer<typeof strokesResult>;
