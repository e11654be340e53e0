import * as z from 'zod';
import { LINE_KINDS } from './course.js';
import { envelope, errorModels } from './envelope.js';
import { field, unknown } from './field.js';
import { positions } from './positions.js';

/** How a crew's start was known. */
export const START_SOURCES = ['line', 'first_movement', 'given', 'together', 'interval'] as const;

/** One line of the course, as the tool sees it. */
export const courseLineRow = z.strictObject({
  line: z.enum(LINE_KINDS).meta({ description: 'what the line is' }),
  along_m: field.along_m,
  measured_along_m: field.measured_along_m,
  width_m: field.width_m,
  heading_deg: field.heading_deg,
});

/** The course, as the tool sees it. */
export const courseRow = z.strictObject({
  file: z.string().meta({ description: 'course file, or the two points that the course was made from' }),
  centreline: z.boolean().meta({ description: 'true where the course has a centreline of its own' }),
  lines: z.array(courseLineRow),
});

/** A crew at one line of the course. */
export const markRow = z.strictObject({
  along_m: field.along_m,
  duration_s: unknown(field.duration_s),
  duration_sd_s: unknown(field.duration_sd_s),
  place: z.int().min(1).nullable().meta({ description: 'place in the event at this line, by duration_s' }),
  section_s: unknown(field.section_s),
  section_sd_s: unknown(field.section_sd_s),
  split_s_per_500m: unknown(field.split_s_per_500m),
  rate_spm: unknown(field.rate_spm),
});

/** One of the equal parts of the course. */
export const coursePartRow = z.strictObject({
  part: z.int().min(1).meta({ description: 'number of the part, from 1' }),
  from_along_m: field.from_along_m,
  to_along_m: field.to_along_m,
  duration_s: unknown(field.duration_s),
  duration_sd_s: unknown(field.duration_sd_s),
  rate_spm: unknown(field.rate_spm),
  speed_mps: unknown(field.speed_mps),
  split_s_per_500m: unknown(field.split_s_per_500m),
  distance_per_stroke_m: unknown(field.distance_per_stroke_m),
  target_pct: unknown(field.target_pct),
});

/** One crew of one event. */
export const regattaRow = z.strictObject({
  event: field.event,
  place: unknown(field.place),
  crew: field.crew,
  crew_number: unknown(field.crew_number),
  lane: unknown(field.lane),
  craft: field.craft,
  outcome: z.enum(['finished', 'not_finished', 'not_started', 'excluded']).nullable().meta({
    description: 'what became of the crew; null where its log does not show it, with the reason in warnings',
  }),
  start_time: unknown(field.start_time),
  start_by: z.enum(START_SOURCES).nullable().meta({
    description:
      'how the start is known: own crossing of the line, own first movement, given in the entries, common start by the tracks, or intervals',
  }),
  finish_time: unknown(field.finish_time),
  duration_s: unknown(field.duration_s),
  duration_sd_s: unknown(field.duration_sd_s),
  handicap_s: unknown(field.handicap_s),
  handicap_pct: unknown(field.handicap_pct),
  penalty_s: unknown(field.penalty_s),
  result_s: unknown(field.result_s),
  official_s: unknown(field.official_s),
  margin_winner_s: unknown(field.margin_winner_s),
  margin_ahead_s: unknown(field.margin_ahead_s),
  margin_ahead_lengths: unknown(field.margin_ahead_lengths),
  separable: z.boolean().nullable().meta({
    description:
      'true where the margin to the crew ahead is more than two of its standard deviations; null where no crew is ahead',
  }),
  stroke_count: unknown(field.stroke_count),
  rate_spm: unknown(field.rate_spm),
  speed_mps: unknown(field.speed_mps),
  split_s_per_500m: unknown(field.split_s_per_500m),
  distance_per_stroke_m: unknown(field.distance_per_stroke_m),
  target_pct: unknown(field.target_pct),
  track: unknown(field.track),
  marks: z.array(markRow),
  parts: z.array(coursePartRow),
  positions,
  extra: z
    .record(z.string(), z.string())
    .meta({ description: 'further columns of the entries, carried through as they are' }),
});

/** How one crew stood to the crew compared with. */
export const gapRow = z.strictObject({
  event: field.event,
  crew: field.crew,
  against: z.string().meta({ description: 'the crew compared with' }),
  marks: z.array(
    z.strictObject({
      along_m: field.along_m,
      gap_s: unknown(field.gap_s),
      gap_sd_s: unknown(field.gap_sd_s),
    }),
  ),
  metres: z
    .array(z.strictObject({ along_m: field.along_m, gap_s: field.gap_s }))
    .meta({ description: 'the gap at every metre at which both crews are known' }),
});

/** `thole regatta`. */
export const regattaResult = envelope('regatta', {
  course: courseRow,
  error_model: errorModels,
  results: z.array(regattaRow),
  gaps: z.array(gapRow).meta({ description: 'empty unless a crew to compare with was asked for' }),
  drawn_gaps: z
    .array(gapRow)
    .optional()
    .meta({ description: 'gaps to the winner of each event, for a page' }),
});

export type CourseRow = z.infer<typeof courseRow>;
export type MarkRow = z.infer<typeof markRow>;
export type CoursePartRow = z.infer<typeof coursePartRow>;
export type RegattaRow = z.infer<typeof regattaRow>;
export type GapRow = z.infer<typeof gapRow>;
export type RegattaResult = z.infer<typeof regattaResult>;
export type StartSource = (typeof START_SOURCES)[number];
