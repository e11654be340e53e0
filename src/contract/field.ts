import * as z from 'zod';
import { CRAFT_CODES } from '../units/craft.js';

const number = (description: string) => z.number().meta({ description });
const count = (description: string) => z.int().min(0).meta({ description });
const text = (description: string) => z.string().meta({ description });

/** A value that may be unknown: null in JSON, empty in CSV, with its reason in `warnings`. */
export const unknown = <Schema extends z.ZodType>(schema: Schema) =>
  schema.nullable().meta({ description: schema.meta()?.description ?? '' });

/**
 * Every key that crosses a border, once. A key has one meaning and ends in its unit; the same names are JSON
 * keys and CSV headers.
 */
export const field = {
  file: text('log, as named on the command line'),
  crew: text('crew, as the outing sheet or the entries name it'),
  craft: z.enum(CRAFT_CODES).meta({ description: 'craft: class code' }),
  time: text('instant, ISO 8601 UTC'),
  start_time: text('instant of the start, ISO 8601 UTC'),
  end_time: text('instant of the end, ISO 8601 UTC'),
  finish_time: text('instant of the finish, ISO 8601 UTC'),
  at_s: number("position on the log's clock, seconds from its first sample"),
  lat_deg: number('latitude, degrees north of the equator, WGS84'),
  lon_deg: number('longitude, degrees east of Greenwich, WGS84'),
  start_at_s: number("start on the log's clock, s"),
  end_at_s: number("end on the log's clock, s"),
  duration_s: number('length of time, s'),
  duration_sd_s: number('standard deviation of duration_s, s'),
  stopped_s: number('time of stops within the piece, held in duration_s, s'),
  slow_s: number('time of slow stretches within the piece, held in duration_s, s'),
  uninterrupted_s: number('duration_s less stopped_s and slow_s, s'),
  bridged_s: number(
    'time within it that was bridged between fixes, s; its way there is a guess from both sides',
  ),
  rowing_s: number('time spent rowing or paddling, s'),
  cumulative_s: number('time since the start of the piece, s'),
  distance_m: number('length over ground rowed, m'),
  distance_sd_m: number('standard deviation of distance_m, m'),
  cumulative_m: number('distance since the first stroke, m'),
  over_ground_m: number('length over ground of everything, drifting too, m'),
  drift_m: number('length over ground while not rowing, m'),
  furthest_m: number('farthest from where the outing began, in a straight line, m'),
  along_m: number('position along the course or piece, m'),
  from_along_m: number('start of the part or section, from the start of the piece or course, m'),
  to_along_m: number('end of the part or section, from the start of the piece or course, m'),
  speed_mps: number('mean speed, m/s'),
  speed_over: z.enum(['ground', 'water']).meta({
    description:
      'what speed_mps and all made of it go over: the ground, or the water where the stream is known',
  }),
  split_s_per_500m: number('split: seconds per 500 m'),
  rate_spm: number('stroke rate, strokes per minute'),
  distance_per_stroke_m: number('60 x speed / rate, m'),
  stroke: z.int().min(1).meta({ description: 'number of the stroke, from 1' }),
  stroke_count: count('number of strokes'),
  piece_count: count('number of pieces'),
  drive_s: number('catch to end of the drive, s'),
  speed_min_mps: number('lowest hull speed within the stroke, m/s'),
  speed_max_mps: number('highest hull speed within the stroke, m/s'),
  speed_variation: number(
    'standard deviation of hull speed within a stroke, about its straight line from end to end, / its mean; of a piece or band the mean over its strokes, without those that get the boat under way',
  ),
  extra_drag_power_pct: number(
    'drag power beyond the same mean speed held steady, of the same speeds and meaned alike, %',
  ),
  catch_deceleration_mps2: number('surge at the catch mark, low-passed at 5 Hz, m/s²'),
  speed_against_curve_pct: number('speed / what the reference curve gives at this rate, %'),
  phase_pct: number('share of the cycle since the catch mark, %'),
  acceleration_mps2: number('surge of the hull, low-passed at 5 Hz, mean of the strokes, m/s²'),
  acceleration_sd_mps2: number('standard deviation of acceleration_mps2 from stroke to stroke, m/s²'),
  hull_speed_mps: number('hull speed within the stroke, mean of the strokes, m/s'),
  hull_speed_sd_mps: number('standard deviation of hull_speed_mps from stroke to stroke, m/s'),
  noise_mps2: number('sd of the surge acceleration at rest, waves and sensor together, m/s²'),
  stroke_strength_mps2: number('rms of the surge acceleration of the average stroke over its cycle, m/s²'),
  target_pct: number('target time / own time for the same length, %'),
  heart_rate_bpm: number('heart rate, beats per minute'),
  heart_rate_mean_bpm: number('mean heart rate, beats per minute'),
  heart_rate_max_bpm: number('highest heart rate, beats per minute'),
  heading_deg: number('direction of travel, degrees from true north'),
  headwind_mps: number('wind from ahead by the outing sheet, m/s; below 0 from astern'),
  crosswind_mps: number('wind across by the outing sheet, m/s; above 0 from the right'),
  confidence: z.number().min(0).max(1).meta({ description: 'how likely the stroke is a stroke, 0 to 1' }),
  from_spm: number('lower bound of the rate band, spm, included'),
  to_spm: number('upper bound of the rate band, spm, not included'),
  share_pct: number('share of the strokes, %'),
  asked_m: number('length asked for, m'),
  asked_s: number('length of time asked for, s'),
  event: text('event of the regatta, as the entries name it'),
  place: z.int().min(1).meta({ description: 'place by result_s among the crews of the event that finished' }),
  crew_number: text('number of the crew, as the entries give it'),
  lane: text('lane, as the entries give it'),
  track: text('log of the crew, as the entries name it'),
  handicap_s: number("seconds taken off, the user's own number"),
  handicap_pct: number("share of duration_s taken off, the user's own number, %"),
  penalty_s: number("seconds added, the user's own number"),
  result_s: number('duration_s less the handicap and with the penalty, s'),
  official_s: number("time by hand or by the jury, the user's own number, s"),
  margin_winner_s: number('result_s behind the winner of the event, s'),
  margin_ahead_s: number('result_s behind the crew ahead, s'),
  margin_ahead_lengths: number('margin_ahead_s in lengths of the own hull at its own speed'),
  section_s: number('length of time since the mark before, s'),
  section_sd_s: number('standard deviation of section_s, s'),
  gap_s: number('time behind the crew compared with, s; below 0 ahead'),
  gap_sd_s: number('standard deviation of gap_s, s'),
  course_way: z.enum(['with', 'against']).meta({
    description: 'direction of travel: with the course, from its start to its finish, or against it',
  }),
  group: z.int().min(1).meta({ description: 'number of the group of pieces rowed at one time, from 1' }),
  compared_over_m: number('the shortest length in the group, over which its boats are compared, m'),
  compared_s: number('time over compared_over_m at the own speed, s'),
  compared_sd_s: number('standard deviation of compared_s, s'),
  measured_along_m: number('position along the course by its coordinates, m'),
  width_m: number('length of the line across the water, m'),
} as const;
