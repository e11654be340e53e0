import * as z from 'zod';
import { field } from './field.js';

const ranged = (from: number, to: number, description: string) =>
  z.number().min(from).max(to).meta({ description });

const label = z.string().max(60).optional().meta({ description: "the script's own name for the stretch" });
const rate = ranged(5, 200, 'stroke rate asked for, strokes per minute');
const strength = ranged(0.05, 2, "force on the blade / the crew's usual force at this rate");

/** How long a stretch of rowing lasts: exactly one of the three. */
const extent = {
  time_s: ranged(1, 36_000, 'length of time, s; the last stroke is finished').optional(),
  distance_m: ranged(5, 100_000, 'length over ground, m; the last stroke is finished').optional(),
  strokes: z.int().min(1).max(5000).optional().meta({ description: 'number of strokes' }),
};

const hasOneExtent = (step: {
  time_s?: number | undefined;
  distance_m?: number | undefined;
  strokes?: number | undefined;
}) => [step.time_s, step.distance_m, step.strokes].filter((value) => value !== undefined).length === 1;

const oneExtent = { message: 'give exactly one of time_s, distance_m and strokes' };

const rest = z.strictObject({
  do: z.literal('rest'),
  time_s: ranged(0.1, 36_000, 'length of the rest, s'),
  blades: z.enum(['flat', 'holding', 'clear']).optional().meta({
    description: 'blades: flat on the water (usual), holding the boat up (stops at once), or clear of it',
  }),
  moored: z.boolean().optional().meta({ description: 'true: tied up, so that it lies still over ground' }),
  label,
});

const moved = z.strictObject({
  do: z.literal('moved'),
  by: z.enum(['tow', 'hands', 'trailer']).meta({ description: 'who moves the boat that nobody rows' }),
  time_s: ranged(1, 36_000, 'length of time, s'),
  speed_mps: ranged(0, 30, 'how fast, m/s').optional(),
  label,
});

const row = z
  .strictObject({
    do: z.literal('row'),
    rate_spm: rate,
    to_rate_spm: ranged(5, 200, 'rate at the end, reached evenly, spm').optional(),
    ...extent,
    strength: strength.optional(),
    to_strength: strength.optional(),
    slide: ranged(0.1, 1, 'share of the slide, or of the reach, that is used').optional(),
    label,
  })
  .refine(hasOneExtent, oneExtent);

const start = z
  .strictObject({
    do: z.literal('start'),
    rate_spm: rate.meta({ description: 'rate settled to after the opening, spm' }),
    high_spm: ranged(5, 200, 'rate of the opening strokes, spm').optional(),
    high_strokes: z.int().min(3).max(60).optional().meta({ description: 'strokes before the settle' }),
    ...extent,
    strength: strength.optional(),
    to_strength: strength.optional(),
    label,
  })
  .refine(hasOneExtent, oneExtent);

const pause = z.strictObject({
  do: z.literal('pause'),
  rate_spm: rate.meta({ description: 'rate the strokes would have without the pause, spm' }),
  strokes: z.int().min(1).max(500).meta({ description: 'number of strokes' }),
  hold_s: ranged(0.2, 10, 'length of the pause at hands away, s').optional(),
  every: z.int().min(1).max(20).optional().meta({ description: 'pause after every so many strokes' }),
  label,
});

const straighten = z.strictObject({
  do: z.literal('straighten'),
  strokes: z.int().min(1).max(20).meta({ description: 'number of light strokes' }),
  back: z.boolean().optional().meta({ description: 'true: backing' }),
  label,
});

const single = z.strictObject({
  do: z.literal('single'),
  strokes: z.int().min(1).max(200).meta({ description: 'number of single strokes' }),
  every_s: ranged(2, 60, 'from one to the next, s'),
  label,
});

type Step = z.infer<
  typeof rest | typeof moved | typeof row | typeof start | typeof pause | typeof straighten | typeof single
>;

/** One line of the script; `repeat` holds lines of its own. */
export type ScriptStep = Step | { do: 'repeat'; times: number; script: ScriptStep[] };

const scriptStep: z.ZodType<ScriptStep> = z.lazy(() =>
  z.discriminatedUnion('do', [
    rest,
    moved,
    row,
    start,
    pause,
    straighten,
    single,
    z.strictObject({
      do: z.literal('repeat'),
      times: z.int().min(1).max(500).meta({ description: 'how often' }),
      script: z.array(scriptStep).min(1).meta({ description: 'what is repeated' }),
    }),
  ]),
);

const crew = z.strictObject({
  name: z.string().max(60).optional().meta({ description: 'name of the crew' }),
  mass_kg: ranged(30, 150, 'mass of one of the crew, kg').optional(),
  power: ranged(0.2, 2, "power / the craft's usual power").optional(),
  plateau_spm: ranged(10, 200, 'rate above which speed no longer rises, spm').optional(),
  exponent: ranged(0, 1, 'speed ~ rate to this power; 1/3 is constant work a stroke').optional(),
  rate_sd_pct: ranged(0, 10, 'stroke-to-stroke sd of the rate, %').optional(),
  force_sd_pct: ranged(0, 30, 'stroke-to-stroke sd of the force, %').optional(),
  rest_bpm: ranged(30, 120, 'heart rate at rest, beats per minute').optional(),
  max_bpm: ranged(100, 230, 'highest heart rate, beats per minute').optional(),
});

const point = z.tuple([z.number(), z.number()]).meta({ description: 'm east and north of the origin' });
const bearing = ranged(0, 360, 'direction, degrees from true north');

const path = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('straight'), heading_deg: bearing }),
  z.strictObject({
    kind: z.literal('out_and_back'),
    heading_deg: bearing,
    leg_m: ranged(50, 50_000, 'length of a leg, m'),
  }),
  z.strictObject({
    kind: z.literal('bend'),
    heading_deg: bearing,
    lead_m: ranged(0, 50_000, 'straight before the bend, m'),
    radius_m: ranged(20, 10_000, 'radius of the bend, m'),
    turn_deg: ranged(-360, 360, 'change of direction, degrees, to starboard above 0'),
  }),
  z.strictObject({ kind: z.literal('points'), points: z.array(point).min(2).max(2000) }),
  z.strictObject({
    kind: z.literal('moored'),
    heading_deg: bearing,
    sway_m: ranged(0, 5, 'sd of the swing at the mooring, each axis, m').optional(),
  }),
]);

const gnss = z.strictObject({
  hz: ranged(0.1, 25, 'fixes a second'),
  position_sd_m: ranged(0, 30, 'sd of the wandering position error, each axis, m').optional(),
  correlation_s: ranged(1, 3600, 'its correlation time, s').optional(),
  white_sd_m: ranged(0, 30, 'sd of the independent position error, each axis, m').optional(),
  speed: z.boolean().optional().meta({ description: 'true: Doppler speed is logged' }),
  speed_sd_mps: ranged(0, 2, 'sd of the Doppler speed, m/s').optional(),
  speed_wander_sd_mps: ranged(0, 1, 'sd of the wandering part of its error, m/s').optional(),
  speed_wander_s: ranged(0.1, 600, 'correlation time of that part, s').optional(),
  position_smooth_s: ranged(0, 10, 'length of the mean that the logged position is, s').optional(),
  lag_s: ranged(0, 5, 'how old the logged position and speed are, s').optional(),
  smooth_s: ranged(0, 10, 'length of the mean that the logged speed is, s').optional(),
  whole_seconds: z.boolean().optional().meta({ description: 'true: stamps carry whole seconds only' }),
  bow_offset_m: ranged(-30, 30, 'metres from the antenna forward to the bow ball').optional(),
  accuracy_field: z.boolean().optional().meta({ description: 'true: the log states its accuracy' }),
});

const watch = z.strictObject({
  hz: ranged(0.1, 4, 'samples a second of cadence and heart rate'),
  cadence: z.boolean().optional().meta({ description: 'true: cadence is logged' }),
  heart_rate: z.boolean().optional().meta({ description: 'true: heart rate is logged' }),
});

const imu = z.strictObject({
  hz: ranged(5, 400, 'samples a second'),
  mount: z
    .strictObject({
      yaw_deg: ranged(-360, 360, 'turned to starboard about the vertical, degrees').optional(),
      pitch_deg: ranged(-360, 360, 'then bow end up, degrees').optional(),
      roll_deg: ranged(-360, 360, 'then rolled to starboard, degrees').optional(),
    })
    .optional()
    .meta({ description: 'how the box sits in the boat: x forward, y to port, z up when all are 0' }),
  noise_mps2: ranged(0, 20, 'white noise, sd, each axis, m/s²').optional(),
  bias_mps2: ranged(0, 5, 'sd of the constant bias, each axis, m/s²').optional(),
  rotation: z.boolean().optional().meta({ description: 'true: rates of rotation are logged' }),
  rotation_noise_dps: ranged(0, 50, 'their white noise, sd, degrees per second').optional(),
  jitter_s: ranged(0, 0.1, 'sd of the sampling times about an even grid, s').optional(),
  lost_pct: ranged(0, 50, 'share of samples lost, %').optional(),
  limit_mps2: ranged(5, 400, 'readings are clipped beyond this, m/s²').optional(),
  start_s: ranged(0, 3600, 'true time of the first sample, s').optional(),
  drift_ppm: ranged(-1000, 1000, 'how fast its clock runs ahead, parts per million').optional(),
  clock_offset_s: ranged(-3600, 3600, 'how far its clock is ahead at its first sample, s').optional(),
  clock: z.enum(['own', 'utc']).optional().meta({
    description: 'own: times from its own start, with no date; utc: absolute times',
  }),
  placement: z.enum(['hull', 'cox', 'wrist', 'pocket', 'body', 'unknown']).optional(),
});

const chop = z.strictObject({
  surge_mps2: ranged(0, 5, 'rms of the surge it makes, m/s²'),
  hz: ranged(0.1, 3, 'mean frequency of the waves past a fixed point, Hz').optional(),
  from_deg: ranged(0, 360, 'direction it comes from, degrees from true north').optional(),
  heave_mps2: ranged(0, 5, 'rms of the heave, m/s²').optional(),
  pitch_deg: ranged(0, 10, 'rms of the pitch, degrees').optional(),
  roll_deg: ranged(0, 20, 'rms of the roll, degrees').optional(),
});

const fromDeg = ranged(0, 360, 'direction they come from, degrees from true north').optional();

/** The motion that waves make, as rms of each of the hull's six; what is left out is none. */
const motions = {
  hz: ranged(0.05, 5, 'mean frequency of the waves past a fixed point, Hz'),
  surge_mps2: ranged(0, 5, 'rms of the surge they make, m/s²'),
  sway_mps2: ranged(0, 5, 'rms of the sway, m/s²').optional(),
  heave_mps2: ranged(0, 5, 'rms of the heave, m/s²').optional(),
  roll_deg: ranged(0, 20, 'rms of the roll, degrees').optional(),
  pitch_deg: ranged(0, 10, 'rms of the pitch, degrees').optional(),
  yaw_deg: ranged(0, 10, 'rms of the yaw, degrees').optional(),
  from_deg: fromDeg,
};

const wave = z.discriminatedUnion('kind', [
  z
    .strictObject({
      kind: z.literal('swell'),
      ...motions,
      octaves: ranged(0.01, 3, 'width of the band, octaves; a third unless given').optional(),
      from_s: ranged(0, 36_000, 'it begins, s').optional(),
      to_s: ranged(0, 36_000, 'it ends, s').optional(),
    })
    .meta({ description: 'waves in a narrow band' }),
  z
    .strictObject({
      kind: z.literal('wake'),
      ...motions,
      at_s: ranged(0, 36_000, 'its first wave, s'),
      length_s: ranged(2, 600, 'how long it passes, s'),
    })
    .meta({ description: 'the wave train of a passing boat; rms at its height' }),
  z
    .strictObject({
      kind: z.literal('sea'),
      spectrum: z.enum(['jonswap', 'pierson_moskowitz']),
      height_m: ranged(0, 3, 'significant wave height, m'),
      peak_hz: ranged(0.1, 2, 'frequency of its peak, Hz'),
      from_deg: ranged(0, 360, 'direction it comes from, degrees from true north'),
      spread_deg: ranged(0, 60, 'sd of the directions of single waves, degrees').optional(),
    })
    .meta({ description: 'a sea, through the response of the hull' }),
]);

const faults = z.strictObject({
  gaps: z
    .array(z.strictObject({ from_s: ranged(0, 36_000, 'from, s'), to_s: ranged(0, 36_000, 'to, s') }))
    .optional()
    .meta({ description: 'stretches without fixes' }),
  cut_off_s: ranged(1, 36_000, 'the logs end here, in the middle of a record, s').optional(),
  outliers: z
    .strictObject({
      share_pct: ranged(0, 20, 'share of fixes thrown far off, %'),
      size_m: ranged(1, 100_000, 'sd of how far, each axis, m'),
    })
    .optional(),
  duplicate_pct: ranged(0, 50, 'share of fixes written twice, %').optional(),
  reflections: z
    .array(
      z.strictObject({
        from_s: ranged(0, 36_000, 'from, s'),
        to_s: ranged(0, 36_000, 'to, s'),
        sd_m: ranged(0, 100, 'sd of the error that is added meanwhile, each axis, m'),
        correlation_s: ranged(0.1, 600, 'its correlation time, s'),
      }),
    )
    .optional()
    .meta({ description: 'stretches in which reflected signals put the fixes off' }),
});

/** A scenario for `thole simulate`: what is rowed, where, and what the loggers make of it. */
export const scenario = z.strictObject({
  schema: z.literal('thole/scenario/1').optional(),
  name: z
    .string()
    .regex(/^[a-z0-9][a-z0-9_-]{0,39}$/)
    .optional()
    .meta({ description: 'name of the files, lower case' }),
  craft: field.craft,
  crew: crew.optional(),
  seed: z.int().min(0).max(4_294_967_295).meta({ description: 'start of the random numbers' }),
  start_time: z.iso
    .datetime({ offset: true })
    .optional()
    .meta({ description: 'instant of 0 s on the true clock' }),
  origin: z
    .strictObject({
      lat_deg: ranged(-80, 80, 'latitude, degrees'),
      lon_deg: ranged(-180, 180, 'longitude, degrees'),
    })
    .optional()
    .meta({ description: 'where the path begins' }),
  path: path.optional(),
  script: z.array(scriptStep).min(1).meta({ description: 'what the crew does, in order' }),
  stream: z
    .strictObject({ mps: ranged(0, 3, 'speed of the stream, m/s'), to_deg: bearing })
    .optional()
    .meta({ description: 'the speed of the water and the direction that it flows to' }),
  chop: chop.optional(),
  waves: z.array(wave).max(20).optional().meta({ description: 'waves beside the chop' }),
  sensors: z
    .strictObject({ gnss: gnss.optional(), watch: watch.optional(), imu: imu.optional() })
    .refine(({ gnss, watch, imu }) => (gnss ?? watch ?? imu) !== undefined, {
      message: 'put a gnss or an imu aboard',
    })
    .refine(({ gnss, watch }) => watch === undefined || gnss !== undefined, {
      message: 'a watch writes into the track: put a gnss aboard too',
    })
    .meta({ description: 'what is logged; a sensor left out is not aboard' }),
  lines: z
    .array(z.strictObject({ line: z.string(), from: point, to: point }))
    .optional()
    .meta({ description: 'lines across the water; the truth says when the bow crosses them' }),
  faults: faults.optional(),
});

export type Scenario = z.infer<typeof scenario>;
