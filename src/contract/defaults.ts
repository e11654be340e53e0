import * as z from 'zod';
import { CRAFT_CODES } from '../units/craft.js';

const text = (description: string) => z.string().min(1).optional().meta({ description });

/**
 * `thole.json`: what a club would write behind every command. Keys are the options' own names; an option on the command
 * line wins, and for craft and placement so do the outing sheet and the boat file, which know one boat.
 */
export const defaultsFile = z.strictObject({
  schema: z.literal('thole/defaults/1').optional(),
  tz: text('time zone of times in tables and of times without an offset, as an IANA name'),
  craft: z
    .enum(CRAFT_CODES)
    .optional()
    .meta({ description: 'craft of logs that nothing else names one for' }),
  placement: z
    .enum(['hull', 'cox', 'wrist', 'pocket', 'body', 'unknown'])
    .optional()
    .meta({ description: 'where the logger sits where nothing else says so' }),
  boat: text('boat file, found from the folder of this file'),
  bands: z
    .array(z.number().positive())
    .min(1)
    .optional()
    .meta({ description: 'bounds of the rate bands, rising, spm' }),
  speed: z.enum(['split', 'mps', 'kmh', 'knots']).optional().meta({ description: 'unit of speed in tables' }),
  decimal: z.enum(['point', 'comma']).optional().meta({
    description: 'decimal sign of CSV and TSV; comma also puts semicolons between the cells of CSV',
  }),
  times: z
    .enum(['seconds', 'clock'])
    .optional()
    .meta({ description: 'clock: CSV and TSV have lengths of time also as minutes and seconds' }),
  season_from: text('day on which a season begins, as 09-01'),
});

export type DefaultsFile = z.infer<typeof defaultsFile>;
