import * as z from 'zod';
import { field, unknown } from './field.js';

/** The number of a piece, as rows that belong to one name it. */
export const pieceNumber = z.int().min(1).meta({ description: 'number of the piece within the log, from 1' });

/** The number of a stroke within its piece. */
const pieceStroke = z.int().min(1).meta({ description: 'number of the stroke within the piece, from 1' });

/** One of the first strokes of a piece. */
export const openingStrokeRow = z.strictObject({
  stroke: pieceStroke,
  at_s: field.at_s,
  cumulative_s: z.number().meta({ description: 'from the start of the piece to the end of the stroke, s' }),
  rate_spm: unknown(field.rate_spm),
  speed_mps: unknown(field.speed_mps),
  distance_m: unknown(field.distance_m),
  distance_sd_m: unknown(field.distance_sd_m),
  cumulative_m: z
    .number()
    .nullable()
    .meta({ description: 'from the start of the piece to the end of the stroke, m' }),
});

/** How a piece got going. */
export const openingRow = z.strictObject({
  file: field.file,
  piece: pieceNumber,
  start: z.enum(['standing', 'rolling']).meta({ description: 'began at rest, or at speed' }),
  race_speed_mps: z
    .number()
    .nullable()
    .meta({ description: 'race speed: mean speed over the middle half of the time of the piece, m/s' }),
  time_to_100m_s: z.number().nullable().meta({ description: 'from the start of the piece to 100 m, s' }),
  time_to_100m_sd_s: z.number().nullable().meta({ description: 'standard deviation of time_to_100m_s, s' }),
  time_to_race_speed_s: z.number().nullable().meta({
    description: 'from the start to the end of the first stroke at 98 % of race speed or more, s',
  }),
  strokes: z.array(openingStrokeRow).meta({ description: 'the first strokes, as many as were asked for' }),
});

export type OpeningStrokeRow = z.infer<typeof openingStrokeRow>;
export type OpeningRow = z.infer<typeof openingRow>;
