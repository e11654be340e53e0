import * as z from 'zod';
import { envelope } from './envelope.js';
import { field, unknown } from './field.js';

/** Quantities that turn into one another; null where what was given does not settle them. */
export const paceRow = z.strictObject({
  speed_mps: unknown(field.speed_mps),
  split_s_per_500m: unknown(field.split_s_per_500m),
  rate_spm: unknown(field.rate_spm),
  distance_per_stroke_m: unknown(field.distance_per_stroke_m),
  distance_m: z.number().nullable().meta({ description: 'length, m' }),
  duration_s: unknown(field.duration_s),
  stroke_count: unknown(field.stroke_count),
});

/** `thole pace`: one row, or with --sheet one row for each split and rate. */
export const paceResult = envelope('pace', {
  pace: paceRow.nullable().meta({ description: 'what follows from what was given; null with --sheet' }),
  sheet: z.array(paceRow).meta({ description: 'the target sheet, split by split and rate by rate' }),
});

export type PaceRow = z.infer<typeof paceRow>;
export type PaceResult = z.infer<typeof paceResult>;
