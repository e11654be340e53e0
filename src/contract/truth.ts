import * as z from 'zod';
import { field, unknown } from './field.js';

const number = (description: string) => z.number().meta({ description });
const series = (description: string) => z.array(z.number()).meta({ description });

/** What was true of a simulated outing: `NAME.truth.json`. Times count from the first sample of the track. */
export const truthFile = z.strictObject({
  schema: z.literal('thole/truth/1'),
  name: z.string().meta({ description: 'name of the scenario' }),
  craft: field.craft,
  start_time: field.start_time,
  duration_s: field.duration_s,
  over_ground_m: number('length of the whole path over ground, m'),
  stroke_count: field.stroke_count,
  stretches: z
    .array(
      z.strictObject({
        label: z.string().meta({ description: "the script's name for the stretch" }),
        kind: z.enum(['rest', 'rowing']),
        from_s: number('start, s'),
        to_s: number('end: for rowing the end of the last cycle, s'),
        asked_spm: z.number().nullable().meta({ description: 'rate asked for, spm' }),
        stroke_count: field.stroke_count,
        rate_spm: unknown(field.rate_spm),
        distance_m: number('length over ground, m'),
      }),
    )
    .meta({ description: 'the script as it was rowed' }),
  lines: z
    .array(z.strictObject({ line: z.string(), at_s: field.at_s }))
    .meta({ description: 'when the bow crossed each line of the scenario, in time order' }),
  catch_marks_s: series('every catch mark: from rest the first movement, else the minimum of the surge, s'),
  imu: z
    .strictObject({
      start_s: number('true time of the first sample of the IMU log, s'),
      drift_ppm: number('how fast its clock runs ahead, parts per million'),
    })
    .nullable(),
  path: z
    .strictObject({
      step_s: number('interval of the columns below, s'),
      along_m: series('length over ground since 0 s, m'),
      east_m: series('antenna east of the origin, m'),
      north_m: series('antenna north of the origin, m'),
      speed_mps: series('hull speed over ground, m/s'),
    })
    .meta({
      description: 'where the boat was, on the plane that keeps distance and direction from its origin',
    }),
});

export type TruthFile = z.infer<typeof truthFile>;
