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

/** One stroke of a stretch in which speed and rate part company. */
export const offCurveStrokeRow = z.strictObject({
  stroke: pieceStroke,
  at_s: field.at_s,
  stroke_rate_spm: z.number().meta({ description: 'rate of the stroke, spm' }),
  stroke_speed_mps: z.number().meta({ description: 'mean speed of the stroke, m/s' }),
  stroke_against_curve_pct: z
    .number()
    .meta({ description: 'speed of the stroke / what the reference curve gives at its rate, %' }),
});

/** Strokes in a row whose speed parts company with their rate. */
export const offCurveRow = z.strictObject({
  file: field.file,
  piece: pieceNumber,
  side: z
    .enum(['above', 'below'])
    .meta({ description: 'faster or slower for the rate than the piece as a whole' }),
  from_stroke: z.int().min(1).meta({ description: 'first stroke, counted within the piece from 1' }),
  to_stroke: z.int().min(1).meta({ description: 'last stroke, included' }),
  start_at_s: field.start_at_s,
  end_at_s: field.end_at_s,
  rate_spm: field.rate_spm,
  speed_mps: field.speed_mps,
  speed_against_curve_pct: field.speed_against_curve_pct,
  level_against_curve_pct: z
    .number()
    .meta({ description: 'median of speed against the curve over the settled strokes of the piece, %' }),
  strokes: z.array(offCurveStrokeRow),
});

export type OpeningStrokeRow = z.infer<typeof openingStrokeRow>;
export type OpeningRow = z.infer<typeof openingRow>;
export type OffCurveRow = z.infer<typeof offCurveRow>;
