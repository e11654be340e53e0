import * as z from 'zod';
import { field } from './field.js';

const direction = (description: string) =>
  z
    .tuple([z.number().min(-1).max(1), z.number().min(-1).max(1), z.number().min(-1).max(1)])
    .meta({ description });

/** How the accelerometer sits in the boat: directions in its own axes, of length 1. */
export const mount = z
  .strictObject({
    forward_axis: direction('forward along the hull, x y z of the sensor'),
    up_axis: direction('up, x y z of the sensor'),
  })
  .meta({ description: 'how the accelerometer sits in the boat' });

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
  speed_wander_sd_mps: z
    .number()
    .min(0)
    .max(1)
    .optional()
    .meta({ description: 'sd of the wandering error of the logged speed, m/s; 0 for none' }),
  speed_wander_s: z
    .number()
    .min(0.1)
    .max(600)
    .optional()
    .meta({ description: 'its correlation time, s; default 30' }),
  noise_mps2: z
    .number()
    .min(0)
    .max(20)
    .optional()
    .meta({ description: field.noise_mps2.meta()!.description! }),
  stroke_strength_mps2: z
    .number()
    .min(0)
    .max(50)
    .optional()
    .meta({ description: field.stroke_strength_mps2.meta()!.description! }),
  rate_from_spm: z.number().min(5).max(200).optional().meta({ description: 'lowest usable rate, spm' }),
  rate_to_spm: z.number().min(5).max(200).optional().meta({ description: 'highest usable rate, spm' }),
  mount: mount.optional(),
});

export type Mount = z.infer<typeof mount>;
export type BoatFile = z.infer<typeof boatFile>;
