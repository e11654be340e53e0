import * as z from 'zod';
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

/** One ISO week; `week` is null for outings whose log has no clock. */
export const weekRow = z.strictObject({
  week: z.string().nullable().meta({ description: 'ISO 8601 week, as 2026-W12' }),
  ...totalsRow.shape,
  rate_bands: z.array(seasonBandRow),
});

/** One calendar month; `month` is null for outings whose log has no clock. */
export const monthRow = z.strictObject({
  month: z.string().nullable().meta({ description: 'month, as 2026-03' }),
  ...totalsRow.shape,
});

/** One crew, craft, month or folder. */
export const groupRow = z.strictObject({
  group: z.string().nullable().meta({ description: 'crew, craft, month or folder; null where not known' }),
  ...totalsRow.shape,
  rate_bands: z.array(seasonBandRow),
});

/** One outing of the season. */
export const seasonOutingRow = z.strictObject({
  file: field.file,
  crew: unknown(field.crew),
  craft: unknown(field.craft),
  place: outingRow.shape.place,
  start_time: unknown(field.start_time),
  distance_m: unknown(field.distance_m),
  rowing_s: unknown(field.rowing_s),
  stroke_count: unknown(field.stroke_count),
});

/** The best over one length in the whole season. */
export const seasonBestRow = z.strictObject({
  kind: z.enum(['stretch', 'piece']).meta({ description: 'a stretch of any rowing, or a whole piece' }),
  ...bestRow.shape,
  crew: unknown(field.crew),
  file: field.file,
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
    description: 'of three heart-rate zones, after Treff and others (2019); null where not defined',
  }),
  outings: z.array(seasonOutingRow),
  groups: z.array(groupRow),
});

export type TotalsRow = z.infer<typeof totalsRow>;
export type SeasonOutingRow = z.infer<typeof seasonOutingRow>;
export type SeasonBestRow = z.infer<typeof seasonBestRow>;
export type HeartRateZoneRow = z.infer<typeof heartRateZoneRow>;
export type SeasonResult = z.infer<typeof seasonResult>;
