import type { BoatFile } from '../../src/contract/boat.js';
import type { Scenario } from '../../src/contract/scenario.js';
import { type Outing, openOuting } from '../../src/outing/index.js';
import type { Recording } from '../../src/recording/index.js';
import { simulate, type Truth } from '../../src/simulate/index.js';
import type { Craft } from '../../src/units/craft.js';
import { simulateTwin } from '../simulator/twin.js';

export const SIMULATORS = ['forces', 'twin'] as const;

/** A logger on a hull, in words that both simulators know. */
export interface HullAsk {
  readonly simulator: (typeof SIMULATORS)[number];
  readonly craft: Craft;
  readonly seed?: number;
  readonly legs: readonly (
    | { readonly restS: number }
    | { readonly rowS: number; readonly rateSpm: number }
  )[];
  readonly chopMps2?: number;
  readonly imuHz?: number;
  readonly noiseMps2?: number;
  readonly mount?: { readonly yawDeg: number; readonly pitchDeg: number; readonly rollDeg: number };
}

export interface SimulatedHull {
  readonly track: Recording;
  readonly imu: Recording;
  readonly truth: Truth;
}

const HEADING_DEG = 40;
const LEVEL = { yawDeg: 0, pitchDeg: 0, rollDeg: 0 };

/** A 10 Hz track and the IMU log of one hull, both with date and time. */
export const simulatedHull = (ask: HullAsk): SimulatedHull => {
  const { craft, seed = 1, legs, chopMps2 = 0, imuHz = 50, noiseMps2 = 0.06, mount = LEVEL } = ask;
  if (ask.simulator === 'twin') {
    const made = simulateTwin({
      seed,
      craft,
      script: legs,
      chop: { surgeMps2: chopMps2 },
      waters: { headingDeg: HEADING_DEG },
      imu: { rateHz: imuHz, noiseSdMps2: noiseMps2, mount },
    });
    return { track: made.track!, imu: made.imu!, truth: made.truth };
  }
  const scenario: Scenario = {
    craft,
    seed,
    script: legs.map((leg) =>
      'restS' in leg
        ? { do: 'rest', time_s: leg.restS }
        : { do: 'row', rate_spm: leg.rateSpm, time_s: leg.rowS },
    ),
    path: { kind: 'straight', heading_deg: HEADING_DEG },
    // waves that make surge alone: nothing else in the log foretells them
    ...(chopMps2 > 0 ? { chop: { surge_mps2: chopMps2, hz: 0.6, from_deg: HEADING_DEG } } : {}),
    sensors: {
      gnss: { hz: 10, speed: true, speed_sd_mps: 0.05 },
      imu: {
        hz: imuHz,
        noise_mps2: noiseMps2,
        clock: 'utc',
        mount: { yaw_deg: mount.yawDeg, pitch_deg: mount.pitchDeg, roll_deg: mount.rollDeg },
      },
    },
  };
  const { track, imu, truth } = simulate(scenario);
  return { track: track!, imu: imu!, truth };
};

/** The outing of a simulated hull. @param boat what a boat file says; null for none */
export const hullOuting = (
  { track, imu }: SimulatedHull,
  craft: Craft,
  boat: BoatFile | null = null,
): Outing => openOuting([track, imu], { craft, placement: 'hull', ...(boat === null ? {} : { boat }) });
