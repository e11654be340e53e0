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

/** One point of two average strokes over each other. */
export const comparedCyclePoint = z.strictObject({
  phase_pct: field.phase_pct,
  acceleration_mps2: field.acceleration_mps2,
  with_acceleration_mps2: z.number().meta({ description: 'surge of the other log at that phase, m/s²' }),
  difference_mps2: z.number().meta({ description: 'surge beyond that of the other log, m/s²' }),
  spread_mps2: z.number().nullable().meta({
    description: 'standard deviation of a stroke of the one against a stroke of the other, m/s²',
  }),
});

/** A stretch of the cycle in which two average strokes differ by more than their spread. */
export const cycleStretch = z.strictObject({
  from_phase_pct: z.number().meta({ description: 'start of the stretch, % of the cycle' }),
  to_phase_pct: z.number().meta({ description: 'end of the stretch, % of the cycle' }),
  difference_mps2: z.number().meta({ description: 'mean difference of surge in it, m/s²' }),
  spread_mps2: z.number().meta({ description: 'mean spread in it, m/s²' }),
});

/** The average strokes of two logs within one range of rates. */
export const comparedBand = z.strictObject({
  from_spm: unknown(field.from_spm),
  to_spm: unknown(field.to_spm),
  stroke_count: field.stroke_count,
  with_stroke_count: z.int().min(0).meta({ description: 'number of strokes of the other log' }),
  rate_spm: field.rate_spm,
  with_rate_spm: z.number().meta({ description: 'mean rate of the other log, spm' }),
  rates_alike: z.boolean().meta({
    description:
      'whether the rates are within 1.5 spm: a stroke changes with its rate, so else no stretch is shown',
  }),
  cycle: z.array(comparedCyclePoint),
  stretches: z.array(cycleStretch).meta({ description: 'where they differ by more than their spread' }),
});

/** `thole strokes --average`. */
export const averageResult = envelope('average', {
  error_model: errorModels,
  craft: unknown(field.craft),
  bands: z.array(averageBand).meta({ description: 'rate bands that hold steady strokes, low to high' }),
  compared: z
    .array(comparedBand)
    .optional()
    .meta({ description: 'beside another log, where one was given: bands that both have' }),
});

export type CyclePoint = z.infer<typeof cyclePoint>;
export type AverageBand = z.infer<typeof averageBand>;
export type ComparedCyclePoint = z.infer<typeof comparedCyclePoint>;
export type CycleStretch = z.infer<typeof cycleStretch>;
export type ComparedBand = z.infer<typeof comparedBand>;
export type AverageResult = z.infer<typeof averageResult>;
