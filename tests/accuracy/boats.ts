import { type Place, placeAfter } from '../../src/geodesy/index.js';
import type { Recording } from '../../src/recording/index.js';
import { placeOnEarth, simulate, type Truth } from '../../src/simulate/index.js';
import type { ReceiverAsk } from '../simulator/receiver.js';
import { simulateTwin, type TwinAsk, USUAL_RECEIVER } from '../simulator/twin.js';

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

const withTruth = (
  truth: Truth,
  tracks: readonly Recording[],
  place: (eastM: number, northM: number) => Place,
): Boat => {
  const read = (column: Float64Array) => (atS: number) => between(column, truth.stepS, atS);
  const [east, north] = [read(truth.eastM), read(truth.northM)];
  return {
    truth,
    tracks,
    alongAt: read(truth.alongM),
    placeAt: (atS) => place(east(atS), north(atS)),
    headingAt: (atS) =>
      (Math.atan2(east(atS + 1) - east(atS - 1), north(atS + 1) - north(atS - 1)) * 180) / Math.PI,
  };
};

const ORIGIN: Place = { latDeg: 47.2, lonDeg: 8.6 };
const HEADING_DEG = 40;

const byTwin = (seed: number, script: readonly Stretch[], receivers: readonly Receiver[]): Boat => {
  const ask: TwinAsk = {
    seed,
    craft: '2x',
    imu: null,
    origin: ORIGIN,
    waters: { headingDeg: HEADING_DEG },
    script: script.map((step) =>
      'mooredS' in step
        ? { restS: step.mooredS, moored: true }
        : 'restS' in step
          ? { restS: step.restS }
          : { rowS: step.rowS, rateSpm: step.rateSpm, ...(step.start ? { startSpm: step.rateSpm + 6 } : {}) },
    ),
  };
  const made = receivers.map((receiver) =>
    simulateTwin({
      ...ask,
      receiver: {
        ...USUAL_RECEIVER,
        rateHz: receiver.hz,
        wanderSdM: receiver.positionSdM,
        wanderS: receiver.correlationS,
        whiteSdM: receiver.whiteSdM,
        dopplerSdMps: receiver.speedSdMps,
      } satisfies ReceiverAsk,
    }),
  );
  const first = made[0]!;
  const { stepS } = first.truth;
  return {
    ...withTruth(
      first.truth,
      made.map(({ track }) => track!),
      (eastM, northM) => placeAfter(ORIGIN, { eastM, northM }),
    ),
    placeAt: (atS) => ({
      latDeg: between(first.latDeg, stepS, atS),
      lonDeg: between(first.lonDeg, stepS, atS),
    }),
  };
};

const byForces = (seed: number, script: readonly Stretch[], receivers: readonly Receiver[]): Boat => {
  const made = receivers.map((receiver) =>
    simulate({
      craft: '2x',
      seed,
      origin: { lat_deg: ORIGIN.latDeg, lon_deg: ORIGIN.lonDeg },
      path: {
        kind: script.every((step) => 'mooredS' in step) ? 'moored' : 'straight',
        heading_deg: HEADING_DEG,
      },
      script: script.map((step) =>
        'mooredS' in step
          ? { do: 'rest', time_s: step.mooredS }
          : 'restS' in step
            ? { do: 'rest', time_s: step.restS }
            : { do: step.start ? 'start' : 'row', rate_spm: step.rateSpm, time_s: step.rowS },
      ),
      sensors: {
        gnss: {
          hz: receiver.hz,
          position_sd_m: receiver.positionSdM,
          correlation_s: receiver.correlationS,
          white_sd_m: receiver.whiteSdM,
          ...(receiver.speedSdMps === null ? {} : { speed: true, speed_sd_mps: receiver.speedSdMps }),
        },
      },
    }),
  );
  return withTruth(
    made[0]!.truth,
    made.map(({ track }) => track!),
    placeOnEarth(ORIGIN),
  );
};

/** Simulate an outing in one of the two ways; every receiver rides in the same boat. */
export const boatOf = (
  simulator: Simulator,
  seed: number,
  script: readonly Stretch[],
  receivers: readonly Receiver[],
): Boat => (simulator === 'twin' ? byTwin : byForces)(seed, script, receivers);
