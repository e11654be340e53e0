import * as z from 'zod';
import { field, unknown } from './field.js';

/**
 * A moment that a picture draws: one a stroke, and one every few seconds where there are none. Asked for by a page
 * alone, so that data formats stay as small as they are.
 */
export const drawnMoment = z.strictObject({
  at_s: z.number().meta({
    description:
      "middle of the stroke or of the few seconds, on the log's clock, seconds from its first sample",
  }),
  along_m: z
    .number()
    .nullable()
    .meta({ description: 'length over ground from the start of the outing or piece to there, m' }),
  speed_mps: unknown(field.speed_mps),
  rate_spm: unknown(field.rate_spm),
  heart_rate_bpm: unknown(field.heart_rate_bpm),
  east_m: z.number().optional().meta({
    description:
      'way east from where the outing began, for a map a few kilometres wide, m; where one was asked for',
  }),
  north_m: z.number().optional().meta({ description: 'way north from there, m' }),
});

/** An equal share of the time of an outing, with its figures. */
export const drawnStep = z.strictObject({
  start_at_s: field.start_at_s,
  end_at_s: field.end_at_s,
  distance_m: unknown(field.distance_m),
  stroke_count: unknown(field.stroke_count),
  rate_spm: unknown(field.rate_spm),
  speed_mps: unknown(field.speed_mps),
  heart_rate_mean_bpm: unknown(field.heart_rate_mean_bpm),
});

/** What the pictures of an outing are drawn from. */
export const drawnOuting = z.strictObject({
  moments: z.array(drawnMoment),
  steps: z.array(drawnStep),
  pieces: z.array(
    z.strictObject({
      piece: z.int().min(1).meta({ description: 'number of the piece within the log, from 1' }),
      start_at_s: field.start_at_s,
      end_at_s: field.end_at_s,
    }),
  ),
});

/** A moment of a piece: one a stroke, and one every few seconds where there are none. */
export const drawnPieceMoment = z.strictObject({
  at_s: drawnMoment.shape.at_s,
  cumulative_s: field.cumulative_s,
  along_m: drawnMoment.shape.along_m,
  speed_mps: unknown(field.speed_mps),
  rate_spm: unknown(field.rate_spm),
  curve_speed_mps: z
    .number()
    .nullable()
    .optional()
    .meta({ description: 'speed that the reference curve gives at this rate, m/s; where one was given' }),
});

/** What the pictures of one piece are drawn from. */
export const drawnPiece = z.strictObject({
  file: field.file,
  piece: z.int().min(1).meta({ description: 'number of the piece within the log, from 1' }),
  moments: z.array(drawnPieceMoment),
});

/** How far a boat was behind another one along the same water. */
export const drawnGap = z.strictObject({
  group: field.group,
  file: field.file,
  against_file: field.file.meta({ description: 'log of the boat compared with: the fastest of the group' }),
  gaps: z.array(z.strictObject({ along_m: field.along_m, gap_s: field.gap_s })),
  end_along_m: z.number().meta({ description: 'where the boats are compared, m' }),
  end_gap_s: field.gap_s,
  end_gap_sd_s: unknown(field.gap_sd_s),
});

/** What the picture of a workout is drawn from, a log each. */
export const drawnWorkout = z.strictObject({
  file: field.file,
  start_time: unknown(field.start_time),
  moments: z.array(
    z.strictObject({
      at_s: drawnMoment.shape.at_s,
      speed_mps: unknown(field.speed_mps),
      rate_spm: unknown(field.rate_spm),
      at_rate: z.boolean().nullable().meta({
        description:
          'whether a stroke of a step is at the rate asked for; null where none was, or between steps',
      }),
    }),
  ),
});

const speedAt = (description: string) => z.number().meta({ description: `${description}, m/s` });

/** What the picture of a curve is drawn from. */
export const drawnCurve = z.strictObject({
  blocks: z
    .array(z.strictObject({ rate_spm: field.rate_spm, speed_mps: field.speed_mps }))
    .meta({ description: 'steady strokes in a row, of which the curve is made' }),
  line: z.array(
    z.strictObject({
      rate_spm: field.rate_spm,
      speed_mps: speedAt('what the curve gives at this rate'),
      speed_low_mps: speedAt('the lower of what the bounds of the exponent give'),
      speed_high_mps: speedAt('the higher of them'),
      constant_work_mps: speedAt('what constant work a stroke gives, through the same middle'),
    }),
  ),
});

/** Distance of a season up to an outing. */
export const drawnTotal = z.strictObject({
  start_time: field.start_time,
  total_m: z.number().meta({ description: 'distance rowed from the first outing to this one, m' }),
});

/** What the pictures of a gauge are drawn from. */
export const drawnGauge = z.strictObject({
  found: z.array(
    z.strictObject({
      rate_spm: field.rate_spm,
      found_pct: z.number().meta({ description: 'F1 of the strokes found at this rate, %' }),
    }),
  ),
  least_pct: z.number().meta({ description: 'F1 from which a rate is usable, %' }),
  spectra: z.array(
    z.strictObject({
      hz: z.number().meta({ description: 'frequency, Hz' }),
      rest_db: z.number().meta({ description: 'power of the surge at rest, dB of 1 (m/s²)²/Hz' }),
      rowing_db: z.number().meta({ description: 'power of the surge outside the rests, dB of 1 (m/s²)²/Hz' }),
    }),
  ),
});

export type DrawnWorkout = z.infer<typeof drawnWorkout>;
export type DrawnCurve = z.infer<typeof drawnCurve>;
export type DrawnTotal = z.infer<typeof drawnTotal>;
export type DrawnGauge = z.infer<typeof drawnGauge>;
export type DrawnPieceMoment = z.infer<typeof drawnPieceMoment>;
export type DrawnPiece = z.infer<typeof drawnPiece>;
export type DrawnGap = z.infer<typeof drawnGap>;
export type DrawnMoment = z.infer<typeof drawnMoment>;
export type DrawnStep = z.infer<typeof drawnStep>;
export type DrawnOuting = z.infer<typeof drawnOuting>;
