import * as z from 'zod';
import { drawnGap, drawnPiece } from './drawn.js';
import { envelope, errorModels } from './envelope.js';
import { field, unknown } from './field.js';
import { rateBandRow } from './outing.js';
import {
  comparedMean,
  comparedRow,
  comparedVariation,
  offCurveRow,
  openingRow,
  pieceNumber,
} from './piece-detail.js';
import { positions } from './positions.js';
import { sheetRow } from './sheet.js';

/** One part of a piece. */
export const partRow = z.strictObject({
  part: z.int().min(1).meta({ description: 'number of the part, from 1' }),
  from_along_m: unknown(field.from_along_m),
  to_along_m: unknown(field.to_along_m),
  duration_s: field.duration_s,
  duration_sd_s: unknown(field.duration_sd_s),
  cumulative_s: field.cumulative_s,
  bridged_s: field.bridged_s,
  distance_m: unknown(field.distance_m),
  distance_sd_m: unknown(field.distance_sd_m),
  stroke_count: unknown(field.stroke_count),
  rate_spm: unknown(field.rate_spm),
  speed_mps: unknown(field.speed_mps),
  split_s_per_500m: unknown(field.split_s_per_500m),
  distance_per_stroke_m: unknown(field.distance_per_stroke_m),
  speed_against_curve_pct: unknown(field.speed_against_curve_pct),
  heart_rate_mean_bpm: unknown(field.heart_rate_mean_bpm),
  target_pct: unknown(field.target_pct),
});

/** One piece with its parts. */
export const pieceRow = z.strictObject({
  piece: pieceNumber,
  file: field.file,
  crew: unknown(field.crew),
  start_time: unknown(field.start_time),
  end_time: unknown(field.end_time),
  start_at_s: field.start_at_s,
  end_at_s: field.end_at_s,
  start: z.enum(['standing', 'rolling']).meta({ description: 'began at rest, or at speed' }),
  outcome: z.enum(['complete', 'stopped_short', 'eased_off', 'log_ended']).nullable().meta({
    description:
      'whether the length asked for was rowed: complete, or the crew stopped before, went on lightly, or still rowed where the log ends; null where none was asked',
  }),
  duration_s: field.duration_s,
  duration_sd_s: unknown(field.duration_sd_s),
  stopped_s: field.stopped_s,
  slow_s: field.slow_s,
  uninterrupted_s: field.uninterrupted_s,
  bridged_s: field.bridged_s,
  distance_m: unknown(field.distance_m),
  distance_sd_m: unknown(field.distance_sd_m),
  stroke_count: unknown(field.stroke_count),
  rate_spm: unknown(field.rate_spm),
  speed_mps: unknown(field.speed_mps),
  speed_sd_mps: z.number().nullable().meta({
    description: 'standard deviation of speed_mps by position and by where the piece begins and ends, m/s',
  }),
  speed_over: field.speed_over,
  split_s_per_500m: unknown(field.split_s_per_500m),
  distance_per_stroke_m: unknown(field.distance_per_stroke_m),
  speed_variation: unknown(field.speed_variation),
  extra_drag_power_pct: unknown(field.extra_drag_power_pct),
  speed_against_curve_pct: unknown(field.speed_against_curve_pct),
  heart_rate_mean_bpm: unknown(field.heart_rate_mean_bpm),
  heart_rate_max_bpm: unknown(field.heart_rate_max_bpm),
  heading_deg: unknown(field.heading_deg),
  headwind_mps: unknown(field.headwind_mps),
  crosswind_mps: unknown(field.crosswind_mps),
  course_way: unknown(field.course_way),
  target_pct: unknown(field.target_pct),
  interruptions: z
    .array(
      z.strictObject({
        kind: z.enum(['stop', 'slow']).meta({ description: 'nobody rowed, or the crew rowed on lightly' }),
        at_s: field.at_s,
        along_m: unknown(field.along_m),
        duration_s: field.duration_s,
      }),
    )
    .meta({ description: 'stops and slow stretches within the piece, in time order' }),
  parts: z.array(partRow),
  positions,
});

/** One boat's piece beside those that other boats rowed at the time. */
export const togetherRow = z.strictObject({
  group: field.group,
  start_time: unknown(field.start_time),
  place: z.int().min(1).meta({ description: 'place in the group by compared_s' }),
  crew: unknown(field.crew),
  file: field.file,
  piece: pieceNumber,
  distance_m: unknown(field.distance_m),
  duration_s: field.duration_s,
  duration_sd_s: unknown(field.duration_sd_s),
  compared_over_m: field.compared_over_m,
  compared_s: field.compared_s,
  compared_sd_s: unknown(field.compared_sd_s),
  margin_winner_s: field.margin_winner_s,
  margin_ahead_s: unknown(field.margin_ahead_s),
  separable: z.boolean().nullable().meta({
    description: 'true where the margin to the boat ahead is more than two of its standard deviations',
  }),
  rate_spm: unknown(field.rate_spm),
  speed_mps: unknown(field.speed_mps),
  split_s_per_500m: unknown(field.split_s_per_500m),
  target_pct: unknown(field.target_pct),
});

/** `thole pieces`. */
export const piecesResult = envelope('pieces', {
  error_model: errorModels,
  sheet: z.array(sheetRow),
  pieces: z.array(pieceRow),
  together: z
    .array(togetherRow)
    .optional()
    .meta({ description: 'boats side by side, where that was asked for' }),
  rate_bands: z
    .array(z.strictObject({ file: field.file, ...rateBandRow.shape }))
    .meta({ description: 'strokes from 20 s into the pieces on, by rate band, one list a log' }),
  openings: z
    .array(openingRow)
    .optional()
    .meta({ description: 'how each piece got going, where that was asked for' }),
  off_curve: z
    .array(offCurveRow)
    .optional()
    .meta({ description: 'where speed and rate part company, where a reference curve was given' }),
  compared: z
    .array(comparedRow)
    .optional()
    .meta({ description: 'pieces beside those of another day, where one was given' }),
  compared_mean: comparedMean
    .nullable()
    .optional()
    .meta({ description: 'all compared pieces together; null where there are fewer than three' }),
  compared_variation: comparedVariation.optional(),
  drawn: z.array(drawnPiece).optional().meta({
    description: 'what --plot and the pictures of a page are drawn from; no data format asks for it',
  }),
  drawn_gaps: z
    .array(drawnGap)
    .optional()
    .meta({ description: 'gaps between boats along the water, for a page' }),
});

export type PartRow = z.infer<typeof partRow>;
export type PieceRow = z.infer<typeof pieceRow>;
export type TogetherRow = z.infer<typeof togetherRow>;
export type PiecesResult = z.infer<typeof piecesResult>;
