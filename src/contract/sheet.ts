import * as z from 'zod';
import { field, unknown } from './field.js';

/** One row of the outing sheet, `outings.csv` beside the logs; echoed in results. */
export const sheetRow = z.strictObject({
  file: field.file,
  crew: unknown(field.crew),
  craft: unknown(field.craft),
  seats: z.array(z.string()).nullable().meta({ description: 'who sat where, bow to stroke' }),
  placement: z
    .enum(['hull', 'cox', 'wrist', 'pocket', 'body', 'unknown'])
    .nullable()
    .meta({ description: 'where the logger sat' }),
  wind: z.string().nullable().meta({ description: "wind, in the user's words" }),
  wind_mps: z.number().min(0).max(40).nullable().meta({ description: 'speed of the wind, m/s' }),
  wind_from_deg: z
    .number()
    .min(0)
    .max(360)
    .nullable()
    .meta({ description: 'direction that the wind comes from, degrees from true north' }),
  stream: z
    .string()
    .nullable()
    .meta({ description: 'stream, as MPS@DEG: its speed and the direction it flows to' }),
  notes: z.string().nullable().meta({ description: "the user's notes" }),
});

export type SheetRow = z.infer<typeof sheetRow>;
