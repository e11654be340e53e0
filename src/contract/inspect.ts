import * as z from 'zod';
import { envelope } from './envelope.js';
import { field, unknown } from './field.js';

/** What one log holds, and what it can carry. */
export const recordingRow = z.strictObject({
  file: field.file,
  format: z.string(),
  device: z.string().nullable(),
  sport: z.string().nullable(),
  place: z
    .enum(['water', 'land'])
    .nullable()
    .meta({ description: 'land: made on an ergometer, kept apart from rowing; null: not known' }),
  clock: z.enum(['utc', 'relative']).meta({
    description: 'utc: date and time; relative: seconds from a start that is not known',
  }),
  start_time: unknown(field.start_time),
  duration_s: field.duration_s,
  extent_m: z.number().nullable().meta({ description: 'diagonal of the box that holds every position, m' }),
  channels: z.array(
    z.strictObject({
      name: z.enum([
        'position',
        'elevation',
        'speed',
        'distance',
        'cadence',
        'heart_rate',
        'acceleration',
        'rotation',
      ]),
      unit: z.string(),
      sample_count: z.int().min(0),
      rate_hz: z.number().nullable().meta({ description: 'usual sampling rate: 1 / median interval, Hz' }),
      gap_count: z.int().min(0),
      longest_gap_s: z.number().nullable(),
    }),
  ),
  placement: z.enum(['hull', 'cox', 'wrist', 'pocket', 'body', 'unknown']),
  noise: z.strictObject({
    position_m: z
      .number()
      .nullable()
      .meta({ description: 'sd of the independent part of the position error, m' }),
    acceleration_mps2: z
      .number()
      .nullable()
      .meta({ description: 'sd of the accelerometer at rest or beyond the stroke band, m/s²' }),
  }),
  verdict: z.array(
    z.strictObject({
      can: z.string().meta({ description: 'the analysis' }),
      yes: z.boolean().meta({ description: 'whether this log can carry it' }),
      why: z.string().meta({ description: 'the reason, in plain words' }),
    }),
  ),
});

/** One value of the club's file of defaults. */
const defaultRow = z.strictObject({
  file: field.file.meta({ description: 'the file of defaults' }),
  name: z.string().meta({ description: 'key in it' }),
  value: z.string(),
  used: z.boolean().meta({ description: 'false: an option was given instead' }),
});

/** `thole inspect`. */
export const inspectResult = envelope('inspect', {
  recordings: z.array(recordingRow),
  defaults: z.array(defaultRow).meta({ description: 'what thole.json gave' }),
});

export type RecordingRow = z.infer<typeof recordingRow>;
export type InspectResult = z.infer<typeof inspectResult>;
