import type { Scenario } from '../../src/contract/scenario.js';
import type { Place } from '../../src/geodesy/index.js';
import { makeRecording, type Recording, type RecordingDraft } from '../../src/recording/index.js';
import type { Grid } from '../../src/simulate/grid.js';
import { placeOnEarth, simulate, type Truth } from '../../src/simulate/index.js';
import { trackLog } from '../../src/simulate/track-log.js';
import { catchMarks } from '../simulator/catch-marks.js';
import { rowHull, STEP_S } from '../simulator/hull.js';
import { placesOf } from '../simulator/place.js';
import { makeRandom } from '../simulator/random.js';
import { receive } from '../simulator/receiver.js';
import { layScript, USUAL_VARIATION } from '../simulator/script.js';
import { USUAL_RECEIVER, USUAL_WATERS } from '../simulator/twin.js';

/** A simulated outing: one truth, and what each receiver made of it. */
export interface Boat {
  readonly truth: Truth;
  readonly tracks: readonly Recording[];
  readonly alongAt: (atS: number) => number;
  readonly placeAt: (atS: number) => Place;
  readonly headingAt: (atS: number) => number;
}

/** A receiver, in words that both simulators know. */
export interface Receiver {
  readonly hz: number;
  readonly positionSdM: number;
  readonly correlationS: number;
  readonly whiteSdM: number;
  /** Null logs no speed. */
  readonly speedSdMps: number | null;
  /** Wandering part of its error: sd, m/s, and correlation time, s. */
  readonly speedWander?: readonly [number, number];
  /** Length of the means that the logged speed and the logged position are, s. */
  readonly speedSmoothS?: number;
  readonly positionSmoothS?: number;
  /** Stretches of reflected signals: from, to, s, sd, m, and correlation time, s, of what they add. */
  readonly reflections?: readonly (readonly [number, number, number, number])[];
  /** Stretches without fixes, s. */
  readonly outages?: readonly (readonly [number, number])[];
}

/** What the crew does, in words that both simulators know. */
export type Stretch =
  | { readonly rowS: number; readonly rateSpm: number; readonly start?: boolean }
  | { readonly restS: number }
  | { readonly mooredS: number };

/** Which simulator: that of the tool itself, with forces, or the kinematic one of the tests. */
export type Simulator = 'forces' | 'twin';

const between = (column: Float64Array, stepS: number, atS: number): number => {
  const i = Math.min(column.length - 2, Math.max(0, Math.floor(atS / stepS)));
  return column[i]! + (column[i + 1]! - column[i]!) * (atS / stepS - i);
};

const ORIGIN: Place = { latDeg: 47.2, lonDeg: 8.6 };
const HEADING_DEG = 40;

/** What a hull did, and how a receiver of a seed sees it. */
interface Ride {
  readonly truth: Truth;
  readonly placeAt: (atS: number) => Place;
  readonly log: (receiver: Receiver, seed: number) => Recording;
}

const recordingOf = (channels: RecordingDraft['channels']): Recording =>
  makeRecording({
    provenance: { file: 'boat.csv', format: 'csv', device: null, sport: null },
    originUnixS: 1_780_300_800,
    channels,
  });

const byTwin = (hullSeed: number, stretches: readonly Stretch[]): Ride => {
  const random = makeRandom(hullSeed);
  const steps = stretches.map((step) =>
    'mooredS' in step
      ? { restS: step.mooredS, moored: true }
      : 'restS' in step
        ? { restS: step.restS }
        : { rowS: step.rowS, rateSpm: step.rateSpm, ...(step.start ? { startSpm: step.rateSpm + 6 } : {}) },
  );
  const script = layScript(steps, '2x', USUAL_VARIATION, random);
  const hull = rowHull(script, '2x', { ...USUAL_WATERS, headingDeg: HEADING_DEG }, random);
  const places = placesOf(ORIGIN, hull.eastM, hull.northM);
  return {
    truth: {
      catchMarksS: catchMarks(script, hull.surgeMps2, STEP_S).forwardS,
      stepS: STEP_S,
      alongM: hull.alongM,
      eastM: hull.eastM,
      northM: hull.northM,
      speedMps: hull.groundMps,
      waterSpeedMps: hull.waterMps,
      surgeMps2: hull.surgeMps2,
      origin: ORIGIN,
      stretches: [],
      imuStartS: 0,
      imuDriftPpm: 0,
    },
    placeAt: (atS) => ({
      latDeg: between(places.latDeg, STEP_S, atS),
      lonDeg: between(places.lonDeg, STEP_S, atS),
    }),
    log: (receiver, seed) =>
      recordingOf(
        receive(
          {
            ...USUAL_RECEIVER,
            rateHz: receiver.hz,
            wanderSdM: receiver.positionSdM,
            wanderS: receiver.correlationS,
            whiteSdM: receiver.whiteSdM,
            dopplerSdMps: receiver.speedSdMps,
            dopplerWanderSdMps: receiver.speedWander?.[0] ?? 0,
            dopplerWanderS: receiver.speedWander?.[1] ?? USUAL_RECEIVER.dopplerWanderS,
            speedSmoothS: receiver.speedSmoothS ?? 0,
            positionSmoothS: receiver.positionSmoothS ?? 0,
            reflections: receiver.reflections ?? [],
            outages: receiver.outages ?? [],
          },
          hull,
          places,
          script.endS,
          makeRandom(seed + RECEIVER_SEEDS),
        ),
      ),
  };
};

const byForces = (hullSeed: number, stretches: readonly Stretch[]): Ride => {
  const scenario: Scenario = {
    craft: '2x',
    seed: hullSeed,
    origin: { lat_deg: ORIGIN.latDeg, lon_deg: ORIGIN.lonDeg },
    path: {
      kind: stretches.every((step) => 'mooredS' in step) ? 'moored' : 'straight',
      heading_deg: HEADING_DEG,
    },
    script: stretches.map((step) =>
      'mooredS' in step
        ? { do: 'rest', time_s: step.mooredS }
        : 'restS' in step
          ? { do: 'rest', time_s: step.restS }
          : { do: step.start ? 'start' : 'row', rate_spm: step.rateSpm, time_s: step.rowS },
    ),
    sensors: { gnss: { hz: 1 } },
  };
  const { truth } = simulate(scenario);
  const { alongM, eastM, northM, speedMps, stepS } = truth;
  const place = placeOnEarth(ORIGIN);
  // Only what the receiver reads is kept of the hull.
  const none = new Float64Array(0);
  const grid: Grid = {
    ...{ stepS, alongM, eastM, northM, speedMps, count: alongM.length },
    ...{
      waterSpeedMps: none,
      surgeMps2: none,
      headingRad: none,
      crewShare: none,
      crewMps2: none,
      lean: none,
    },
  };
  return {
    truth,
    placeAt: (atS) => place(between(eastM, stepS, atS), between(northM, stepS, atS)),
    log: (receiver, seed) => {
      const log = trackLog(
        {
          ...scenario,
          seed,
          faults: {
            gaps: (receiver.outages ?? []).map(([from_s, to_s]) => ({ from_s, to_s })),
            reflections: (receiver.reflections ?? []).map(([from_s, to_s, sd_m, correlation_s]) => ({
              ...{ from_s, to_s, sd_m, correlation_s },
            })),
          },
        },
        {
          hz: receiver.hz,
          position_sd_m: receiver.positionSdM,
          correlation_s: receiver.correlationS,
          white_sd_m: receiver.whiteSdM,
          ...(receiver.speedSdMps === null ? {} : { speed: true, speed_sd_mps: receiver.speedSdMps }),
          ...(receiver.speedWander === undefined
            ? {}
            : { speed_wander_sd_mps: receiver.speedWander[0], speed_wander_s: receiver.speedWander[1] }),
          smooth_s: receiver.speedSmoothS ?? 0,
          position_smooth_s: receiver.positionSmoothS ?? 0,
        },
        grid,
      );
      const position = { atS: log.stampS, columns: [log.latDeg, log.lonDeg] };
      return recordingOf(
        log.speedMps === null
          ? { position }
          : { position, speed: { atS: log.stampS, columns: [log.speedMps] } },
      );
    },
  };
};

/** Hulls of each simulator and script; each is ridden by many receivers, since receivers make the errors. */
const HULLS = 5;
const RECEIVER_SEEDS = 1_000_000;
const rides = new Map<string, Ride>();

/**
 * An outing in one of the two simulators. Seeds share a few hulls, and each has its own receiver errors; every
 * receiver asked for rides in the same boat.
 */
export const boatOf = (
  simulator: Simulator,
  seed: number,
  script: readonly Stretch[],
  receivers: readonly Receiver[],
): Boat => {
  const hullSeed = 1 + (Math.floor(seed / 2) % HULLS);
  const key = `${simulator} ${hullSeed} ${JSON.stringify(script)}`;
  let ride = rides.get(key);
  if (ride === undefined) {
    // One script at a time is in use.
    for (const other of rides.keys()) if (!other.endsWith(JSON.stringify(script))) rides.delete(other);
    ride = (simulator === 'twin' ? byTwin : byForces)(hullSeed, script);
    rides.set(key, ride);
  }
  const { truth, placeAt, log } = ride;
  const read = (column: Float64Array) => (atS: number) => between(column, truth.stepS, atS);
  const [alongAt, east, north] = [read(truth.alongM), read(truth.eastM), read(truth.northM)];
  return {
    truth,
    tracks: receivers.map((receiver) => log(receiver, seed)),
    alongAt,
    placeAt,
    headingAt: (atS) =>
      (Math.atan2(east(atS + 1) - east(atS - 1), north(atS + 1) - north(atS - 1)) * 180) / Math.PI,
  };
};
