import * as z from 'zod';
import { field } from './field.js';

/** What is known of one boat and its logger. Every key but `schema` may be left out. */
export const boatFile = z.strictObject({
  schema: z.literal('thole/boat/1').optional(),
  craft: field.craft.optional(),
  hull_length_m: z.number().min(2).max(30).optional().meta({ description: 'length of the hull, m' }),
  placement: z.enum(['hull', 'cox', 'wrist', 'pocket', 'body', 'unknown']).optional(),
  bow_offset_m: z
    .number()
    .min(-30)
    .max(30)
    .optional()
    .meta({ description: "metres from the logger's antenna forward to the bow ball" }),
  position_sd_m: z
    .number()
    .min(0.01)
    .max(50)
    .optional()
    .meta({ description: 'sd of the wandering position error, each axis, m' }),
  correlation_s: z.number().min(1).max(3600).optional().meta({ description: 'its correlation time, s' }),
  noise_mps2: z
    .number()
    .min(0)
    .max(20)
    .optional()
    .meta({ description: 'sd of the surge acceleration at rest, m/s²' }),
  stroke_strength_mps2: z
    .number()
    .min(0)
    .max(50)
    .optional()
    .meta({ description: 'rms of the surge acceleration while rowing, m/s²' }),
  rate_from_spm: z.number().min(5).max(200).optional().meta({ description: 'lowest usable rate, spm' }),
  rate_to_spm: z.number().min(5).max(200).optional().meta({ description: 'highest usable rate, spm' }),
});

export type BoatFile = z.infer<typeof boatFile>;
