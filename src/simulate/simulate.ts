import type { Scenario } from '../contract/scenario.js';
import { type ChannelDraft, type ChannelName, makeRecording, type Recording } from '../recording/index.js';
import { parseIsoTime } from '../units/instant.js';
import { UserError } from '../units/user-error.js';
import { catchMarks } from './catch-marks.js';
import { craftModel } from './craft-model.js';
import { type ImuLog, imuLog } from './imu-log.js';
import { swung } from './moored.js';
import { rowed } from './rowed.js';
import type { Simulated } from './simulated.js';
import { STROKE_SHAPES } from './stroke-shape.js';
import { type TrackLog, trackLog } from './track-log.js';
import type { BoatTruth } from './truth.js';
import { type WatchLog, watchLog } from './watch-log.js';
import { wavesOf } from './waves.js';

/** What a scenario that is silent gets. */
export const SCENARIO_DEFAULTS = Object.freeze({
  name: 'outing',
  startTime: '2026-05-02T06:30:00Z',
  /** Open ocean south of the Azores, far from any course. */
  latDeg: 30,
  lonDeg: -35,
});

/** The logs of a simulated outing, record by record, before any reader has seen them. */
export interface Logged {
  readonly name: string;
  /** Unix time of 0 s on the true clock, s. */
  readonly startUnixS: number;
  readonly track: TrackLog | null;
  readonly watch: WatchLog | null;
  readonly imu: ImuLog | null;
  readonly truth: BoatTruth;
}

/**
 * Simulate an outing: what the loggers wrote and what was true.
 * @param scenario as `thole schema scenario` describes it
 * @throws UserError where the script cannot be done on the path
 */
export const logged = (scenario: Scenario): Logged => {
  const placed: Scenario = {
    ...scenario,
    origin: scenario.origin ?? { lat_deg: SCENARIO_DEFAULTS.latDeg, lon_deg: SCENARIO_DEFAULTS.lonDeg },
  };
  const startUnixS = parseIsoTime(scenario.start_time ?? SCENARIO_DEFAULTS.startTime);
  if (startUnixS === null)
    throw new UserError(`start_time "${scenario.start_time}" is not a time: write 2026-05-02T06:30:00Z`);
  const model = craftModel(scenario.craft);
  const shape = STROKE_SHAPES[model.family];
  const done = rowed(placed, model, shape);
  if (scenario.path?.kind === 'moored' && done.strokes.length > 0)
    throw new UserError('a moored boat is not rowed: let the script hold rests only, or choose another path');
  const boat = scenario.path?.kind === 'moored' ? { ...done, grid: swung(placed, done.grid) } : done;
  const { grid } = boat;
  const { gnss, watch, imu } = scenario.sensors;
  return {
    name: scenario.name ?? SCENARIO_DEFAULTS.name,
    startUnixS,
    track: gnss === undefined ? null : trackLog(placed, gnss, grid),
    watch: watch === undefined ? null : watchLog(placed, watch, boat, model.referenceSpm),
    imu: imu === undefined ? null : imuLog(placed, imu, grid, shape, wavesOf(placed, model, done.rides)),
    truth: {
      catchMarksS: catchMarks(boat),
      strokes: boat.strokes.map(({ atS, driveS, periodS, kind }) => ({ atS, driveS, periodS, kind })),
      stepS: grid.stepS,
      alongM: grid.alongM,
      eastM: grid.eastM,
      northM: grid.northM,
      speedMps: grid.speedMps,
      waterSpeedMps: grid.waterSpeedMps,
      surgeMps2: grid.surgeMps2,
      headingRad: grid.headingRad,
      origin: { latDeg: placed.origin!.lat_deg, lonDeg: placed.origin!.lon_deg },
      stretches: boat.stretches,
      imuStartS: imu?.start_s ?? 0,
      imuDriftPpm: imu?.drift_ppm ?? 0,
    },
  };
};

/** The samples whose stamps rise, as a reader keeps them. */
const rising = (stampS: Float64Array, columns: readonly Float64Array[]): ChannelDraft => {
  const kept: number[] = [];
  let last = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < stampS.length; i++)
    if (stampS[i]! > last) {
      last = stampS[i]!;
      kept.push(i);
    }
  if (kept.length === stampS.length) return { atS: stampS, columns };
  const take = (column: Float64Array) => Float64Array.from(kept, (index) => column[index]!);
  return { atS: take(stampS), columns: columns.map(take) };
};

const trackRecording = (scenario: Scenario, { name, startUnixS, track, watch }: Logged): Recording | null => {
  const channels: Partial<Record<ChannelName, ChannelDraft>> = {};
  if (track !== null) {
    channels.position = rising(track.stampS, [track.latDeg, track.lonDeg]);
    if (track.speedMps !== null) channels.speed = rising(track.stampS, [track.speedMps]);
  }
  if (watch?.cadenceSpm) channels.cadence = rising(watch.stampS, [watch.cadenceSpm]);
  if (watch?.heartRateBpm) channels.heart_rate = rising(watch.stampS, [watch.heartRateBpm]);
  if (Object.keys(channels).length === 0) return null;
  const gnss = scenario.sensors.gnss;
  return makeRecording({
    provenance: { file: `${name}.gpx`, format: 'gpx', device: null, sport: null },
    originUnixS: startUnixS,
    channels,
    statedPositionSdM: gnss?.accuracy_field === true ? (gnss.position_sd_m ?? null) : null,
  });
};

/** Unix time of the IMU's stamp 0, s; null where it has its own clock only. */
export const imuOriginUnixS = (scenario: Scenario, startUnixS: number): number | null => {
  const { imu } = scenario.sensors;
  return imu?.clock === 'utc' ? startUnixS + (imu.start_s ?? 0) + (imu.clock_offset_s ?? 0) : null;
};

const imuRecording = (scenario: Scenario, { name, startUnixS, imu }: Logged): Recording | null => {
  if (imu === null || imu.stampS.length === 0) return null;
  const acceleration = rising(imu.stampS, imu.force);
  return makeRecording({
    provenance: { file: `${name}.imu.csv`, format: 'csv', device: null, sport: null },
    originUnixS: imuOriginUnixS(scenario, startUnixS),
    channels:
      imu.rotation === null ? { acceleration } : { acceleration, rotation: rising(imu.stampS, imu.rotation) },
  });
};

/**
 * A simulated outing in memory: recordings as a faultless reader would make of the logs, and the truth.
 * @param scenario as `thole schema scenario` describes it
 * @throws UserError where the script cannot be done on the path
 */
export const simulate = (scenario: Scenario): Simulated & { readonly truth: BoatTruth } => {
  const made = logged(scenario);
  return {
    track: trackRecording(scenario, made),
    imu: imuRecording(scenario, made),
    truth: made.truth,
  };
};
