import * as z from 'zod';
import { drawnTotal } from './drawn.js';
import { envelope } from './envelope.js';
import { field, unknown } from './field.js';
import { bestRow, outingRow, rateBandRow } from './outing.js';

/** Sums over outings. What an outing does not tell adds nothing, and is warned of. */
export const totalsRow = z.strictObject({
  outing_count: z.int().min(0).meta({ description: 'number of outings' }),
  distance_m: field.distance_m,
  rowing_s: field.rowing_s,
  stroke_count: field.stroke_count,
});

const ofMost = (what: string) => ({
  description: `${what}; null where fewer than half of the strokes have it`,
});

/** Strokes, time and distance of several outings within one range of rates. */
export const seasonBandRow = rateBandRow.extend({
  speed_variation: z
    .number()
    .nullable()
    .meta(ofMost('standard deviation of hull speed within a stroke / its mean')),
  extra_drag_power_pct: z
    .number()
    .nullable()
    .meta(ofMost('drag power beyond the same mean speed held steady, %')),
});

/** One ISO week. */
export const weekRow = z.strictObject({
  week: z.string().meta({ description: 'ISO 8601 week, as 2026-W12' }),
  ...totalsRow.shape,
  rate_bands: z.array(seasonBandRow),
});

/** One calendar month. */
export const monthRow = z.strictObject({
  month: z.string().meta({ description: 'month, as 2026-03' }),
  ...totalsRow.shape,
});

/** One crew, craft, month or folder. */
export const groupRow = z.strictObject({
  group: z.string().nullable().meta({ description: 'crew, craft, month or folder; null where not known' }),
  ...totalsRow.shape,
  rate_bands: z.array(seasonBandRow),
});

/** One log of the season, counted or not. */
export const seasonOutingRow = z.strictObject({
  file: field.file,
  crew: unknown(field.crew),
  craft: unknown(field.craft),
  place: outingRow.shape.place,
  kept_out: z.enum(['on_land', 'other_sport', 'same_outing', 'no_clock']).nullable().meta({
    description:
      'why it is in no sum: on land (summed apart); another sport; an outing that another log holds; no clock, so that it may be; null where it counts',
  }),
  sport: z.string().nullable().meta({ description: 'sport, as the log calls itself' }),
  start_time: unknown(field.start_time),
  distance_m: unknown(field.distance_m),
  rowing_s: unknown(field.rowing_s),
  stroke_count: unknown(field.stroke_count),
  rate_spm: unknown(field.rate_spm),
  speed_mps: unknown(field.speed_mps),
  speed_over: field.speed_over,
  split_s_per_500m: unknown(field.split_s_per_500m),
  distance_per_stroke_m: unknown(field.distance_per_stroke_m),
  heart_rate_mean_bpm: unknown(field.heart_rate_mean_bpm),
});

const number = (description: string) => z.number().nullable().meta({ description });
const usualRate = z.number().meta({
  description: 'median rate of the outings of the crew in the band, spm: speeds are given at it',
});

/** Steady rowing of one outing in one rate band. */
export const progressRow = z.strictObject({
  crew: unknown(field.crew),
  craft: unknown(field.craft),
  file: field.file,
  start_time: unknown(field.start_time),
  from_spm: unknown(field.from_spm),
  to_spm: unknown(field.to_spm),
  stroke_count: field.stroke_count,
  rate_spm: field.rate_spm,
  speed_mps: field.speed_mps,
  speed_over: field.speed_over,
  distance_per_stroke_m: field.distance_per_stroke_m,
  usual_rate_spm: usualRate,
  like_speed_mps: z.number().meta({ description: 'speed brought to usual_rate_spm, m/s' }),
  like_speed_sd_mps: z.number().meta({
    description:
      'standard deviation of like_speed_mps: logs, rate, and how one day differs from another, m/s',
  }),
  like_distance_per_stroke_m: z.number().meta({ description: '60 x like_speed_mps / usual_rate_spm, m' }),
});

/** The usual speed of a crew in one rate band. */
export const progressLevelRow = z.strictObject({
  from_spm: unknown(field.from_spm),
  to_spm: unknown(field.to_spm),
  outing_count: totalsRow.shape.outing_count,
  usual_rate_spm: usualRate,
  speed_mps: field.speed_mps,
  distance_per_stroke_m: field.distance_per_stroke_m,
});

/** One outing against the usual of its crew, over all its rate bands: a point of a picture. */
export const progressPointRow = z.strictObject({
  file: field.file,
  start_time: unknown(field.start_time),
  difference_pct: z.number().meta({ description: "speed at like rate beyond the season's usual, %" }),
  difference_sd_pct: z.number().meta({
    description: 'standard deviation of difference_pct, what one day differs from another included, %',
  }),
  trend_pct: number('the line of the trend at that day, %'),
});

/** How the speed of one crew in one craft went over the season. */
export const progressTrendRow = z.strictObject({
  crew: unknown(field.crew),
  craft: unknown(field.craft),
  speed_over: field.speed_over,
  outing_count: z.int().min(1).meta({ description: 'outings with steady rowing' }),
  day_count: z.int().min(1).meta({ description: 'days among them: outings of one day count as one' }),
  start_time: unknown(field.start_time),
  end_time: z.string().nullable().meta({ description: 'start of the last of them, ISO 8601 UTC' }),
  change_pct_per_month: number(
    'trend of speed at like rate (Theil-Sen), percent a month; null under eight days',
  ),
  change_low_pct_per_month: number('lower bound of its 98 % interval (Sen 1968); null under eight days'),
  change_high_pct_per_month: number('upper bound of its 98 % interval; null under eight days'),
  verdict: z.enum(['faster', 'slower', 'not_shown']).nullable().meta({
    description:
      'claimed where the 98 % interval leaves out no change; null where neither crew nor craft is named',
  }),
  smallest_shown_pct_per_month: number(
    'smallest trend that four of five seasons like this would show, percent a month',
  ),
  day_sd_pct: z.number().meta({
    description:
      'how much one day differs from another beyond trend and logs (wind, stream, water, crew), sd, %',
  }),
  day_sd_by: z.enum(['season', 'published']).meta({
    description: 'from these outings, or, under eight days, as published',
  }),
  levels: z.array(progressLevelRow),
  points: z.array(progressPointRow).meta({ description: 'outings in time order' }),
});

/** The best over one length in the whole season. */
export const seasonBestRow = z.strictObject({
  kind: z.enum(['stretch', 'piece']).meta({ description: 'a stretch of any rowing, or a whole piece' }),
  ...bestRow.shape,
  crew: unknown(field.crew),
  craft: unknown(field.craft),
  file: field.file,
  piece: z
    .int()
    .min(1)
    .nullable()
    .meta({ description: 'number of the piece within the log; null for a stretch' }),
});

/** Time with the heart rate in one range. */
export const heartRateZoneRow = z.strictObject({
  from_bpm: z.number().nullable().meta({ description: 'lower bound, bpm, included' }),
  to_bpm: z.number().nullable().meta({ description: 'upper bound, bpm, not included' }),
  duration_s: field.duration_s,
  share_pct: z.number().nullable().meta({ description: 'share of the time with heart rate logged, %' }),
});

/** `thole season`. */
export const seasonResult = envelope('season', {
  since: z.string().nullable().meta({ description: 'first day counted, as 2026-03-01; null: no bound' }),
  until: z.string().nullable().meta({ description: 'last day counted; null: no bound' }),
  totals: totalsRow,
  land_totals: totalsRow.meta({ description: 'work on land, in none of the other sums' }),
  weeks: z.array(weekRow),
  months: z.array(monthRow),
  rate_bands: z.array(seasonBandRow),
  last: z
    .strictObject({ outing_count: totalsRow.shape.outing_count, rate_bands: z.array(seasonBandRow) })
    .nullable()
    .meta({ description: 'the last outings, where asked' }),
  bests: z.array(seasonBestRow),
  longest: seasonOutingRow.nullable().meta({ description: 'the outing with the longest distance rowed' }),
  heart_rate_zones: z.array(heartRateZoneRow).nullable(),
  polarization_index: z.number().nullable().meta({
    description: 'of three heart-rate zones; null where not defined',
  }),
  progress: z.array(progressRow).meta({ description: 'speed at like rate: each outing and rate band' }),
  progress_trends: z.array(progressTrendRow).meta({ description: 'each crew in each craft' }),
  outings: z.array(seasonOutingRow).meta({ description: 'every log, those too that are in no sum' }),
  groups: z.array(groupRow),
  drawn: z
    .array(drawnTotal)
    .optional()
    .meta({ description: 'what the pictures of a page are drawn from; no other format asks for it' }),
});

export type TotalsRow = z.infer<typeof totalsRow>;
export type SeasonOutingRow = z.infer<typeof seasonOutingRow>;
export type ProgressRow = z.infer<typeof progressRow>;
export type ProgressTrendRow = z.infer<typeof progressTrendRow>;
export type SeasonBestRow = z.infer<typeof seasonBestRow>;
export type HeartRateZoneRow = z.infer<typeof heartRateZoneRow>;
export type SeasonResult = z.infer<typeof seasonResult>;
