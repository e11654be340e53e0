import * as z from 'zod';
import { drawnOuting } from './drawn.js';
import { envelope, errorModels } from './envelope.js';
import { field, unknown } from './field.js';
import { positions } from './positions.js';
import { sheetRow } from './sheet.js';

/** Strokes, time and distance within one range of rates. */
export const rateBandRow = z.strictObject({
  from_spm: unknown(field.from_spm),
  to_spm: unknown(field.to_spm),
  stroke_count: field.stroke_count,
  rowing_s: field.rowing_s,
  distance_m: unknown(field.distance_m),
  share_pct: unknown(field.share_pct),
  speed_variation: unknown(field.speed_variation),
  extra_drag_power_pct: unknown(field.extra_drag_power_pct),
});

/** The best stretch over one distance, or over one length of time. */
export const bestRow = z.strictObject({
  asked_m: field.asked_m.optional(),
  asked_s: field.asked_s.optional(),
  duration_s: field.duration_s,
  duration_sd_s: unknown(field.duration_sd_s),
  distance_m: field.distance_m,
  distance_sd_m: unknown(field.distance_sd_m),
  start_time: unknown(field.start_time),
  rate_spm: unknown(field.rate_spm),
});

/** Between two neighbouring lines of a course, once. */
export const courseSectionRow = z.strictObject({
  course_way: field.course_way,
  from_along_m: field.from_along_m,
  to_along_m: field.to_along_m,
  start_time: unknown(field.start_time),
  duration_s: field.duration_s,
  duration_sd_s: unknown(field.duration_sd_s),
  speed_mps: field.speed_mps,
  split_s_per_500m: field.split_s_per_500m,
  rate_spm: unknown(field.rate_spm),
});

/** One boat, once on the water. */
export const outingRow = z.strictObject({
  file: field.file,
  crew: unknown(field.crew),
  craft: unknown(field.craft),
  place: z.enum(['water', 'land']).meta({ description: 'rowed on the water, or on land' }),
  start_time: unknown(field.start_time),
  end_time: unknown(field.end_time),
  duration_s: field.duration_s,
  rowing_s: unknown(field.rowing_s),
  distance_m: unknown(field.distance_m),
  over_ground_m: unknown(field.over_ground_m),
  drift_m: unknown(field.drift_m),
  furthest_m: unknown(field.furthest_m),
  stroke_count: unknown(field.stroke_count),
  rate_spm: unknown(field.rate_spm),
  speed_mps: unknown(field.speed_mps),
  speed_over: field.speed_over,
  distance_per_stroke_m: unknown(field.distance_per_stroke_m),
  heart_rate_mean_bpm: unknown(field.heart_rate_mean_bpm),
  rate_bands: z.array(rateBandRow),
  best: z.array(bestRow),
  course_sections: z
    .array(courseSectionRow)
    .optional()
    .meta({ description: 'times between the lines of a course, where one was given' }),
  piece_count: unknown(field.piece_count),
  positions,
  drawn: drawnOuting
    .optional()
    .meta({ description: 'what the pictures of a page are drawn from; no other format asks for it' }),
});

/** `thole outing`. */
export const outingResult = envelope('outing', {
  error_model: errorModels,
  sheet: z.array(sheetRow),
  outings: z.array(outingRow),
});

export type RateBandRow = z.infer<typeof rateBandRow>;
export type BestRow = z.infer<typeof bestRow>;
export type CourseSectionRow = z.infer<typeof courseSectionRow>;
export type OutingRow = z.infer<typeof outingRow>;
export type OutingResult = z.infer<typeof outingResult>;
