import * as z from 'zod';
import { envelope, errorModels } from './envelope.js';
import { field, unknown } from './field.js';

/** One point of the average stroke. */
export const cyclePoint = z.strictObject({
  phase_pct: field.phase_pct,
  acceleration_mps2: field.acceleration_mps2,
  acceleration_sd_mps2: unknown(field.acceleration_sd_mps2),
  hull_speed_mps: unknown(field.hull_speed_mps),
  hull_speed_sd_mps: unknown(field.hull_speed_sd_mps),
});

/** The crew's average stroke within one range of rates. */
export const averageBand = z.strictObject({
  from_spm: unknown(field.from_spm),
  to_spm: unknown(field.to_spm),
  stroke_count: field.stroke_count,
  rate_spm: field.rate_spm,
  speed_mps: unknown(field.speed_mps),
  cycle: z.array(cyclePoint).meta({ description: 'from one catch mark (0 %) to the next (100 %)' }),
});

/** `thole strokes --average`. */
export const averageResult = envelope('average', {
  error_model: errorModels,
  craft: unknown(field.craft),
  bands: z.array(averageBand).meta({ description: 'rate bands that hold steady strokes, low to high' }),
});

export type CyclePoint = z.infer<typeof cyclePoint>;
export type AverageBand = z.infer<typeof averageBand>;
export type AverageResult = z.infer<typeof averageResult>;
