import { simulate } from '../../src/simulate/index.js';
import type { Simulated } from '../../src/simulate/simulated.js';
import { simulateTwin } from '../simulator/twin.js';

/** Which simulator: that of the tool, with forces, or the kinematic one of the tests. */
export type Which = 'dynamic' | 'kinematic';

/** What is aboard beside a 10 Hz track with Doppler speed. */
export interface Aboard {
  readonly seed: number;
  readonly imu: boolean;
}

const dynamicSensors = (imu: boolean) => ({
  gnss: { hz: 10, speed: true },
  ...(imu ? { imu: { hz: 100, clock: 'utc' as const, mount: { yaw_deg: 40, roll_deg: 15 } } } : {}),
});
const twinImu = (imu: boolean) => (imu ? { mount: 'random' as const } : null);

/** A light row at 18, then six pieces of 2 min at 28 between rests of 40 s. */
export const sixPieces = (which: Which, { seed, imu }: Aboard): Simulated =>
  which === 'dynamic'
    ? simulate({
        craft: '2x',
        seed,
        script: [
          { do: 'rest', time_s: 30 },
          { do: 'row', rate_spm: 18, time_s: 300, strength: 0.6, label: 'light' },
          { do: 'rest', time_s: 60 },
          {
            do: 'repeat',
            times: 6,
            script: [
              { do: 'row', rate_spm: 28, time_s: 120, label: 'piece' },
              { do: 'rest', time_s: 40 },
            ],
          },
        ],
        sensors: dynamicSensors(imu),
      })
    : simulateTwin({
        seed,
        imu: twinImu(imu),
        script: [
          { restS: 30 },
          { rowS: 300, rateSpm: 18, drill: 'light' },
          { restS: 60 },
          ...Array.from({ length: 6 }, () => [
            { rowS: 120, rateSpm: 28, label: 'piece' },
            { restS: 40 },
          ]).flat(),
        ],
      });

/** 1500 m from a standing start, after a light row and two rowing intervals of straightening strokes. */
export const race = (which: Which, { seed, imu }: Aboard): Simulated =>
  which === 'dynamic'
    ? simulate({
        craft: '2x',
        seed,
        script: [
          { do: 'rest', time_s: 20 },
          { do: 'row', rate_spm: 20, time_s: 200, strength: 0.6 },
          { do: 'rest', time_s: 60 },
          { do: 'straighten', strokes: 3 },
          { do: 'rest', time_s: 15 },
          { do: 'straighten', strokes: 2, back: true },
          { do: 'rest', time_s: 12 },
          { do: 'start', rate_spm: 33, high_spm: 40, distance_m: 1510, label: 'race' },
          { do: 'rest', time_s: 60 },
        ],
        sensors: dynamicSensors(imu),
      })
    : simulateTwin({
        seed,
        imu: twinImu(imu),
        script: [
          { restS: 20 },
          { rowS: 200, rateSpm: 20, drill: 'light' },
          { restS: 60 },
          { rowS: 8, rateSpm: 20, drill: 'light' },
          { restS: 15 },
          { rowS: 6, rateSpm: 20, drill: 'back' },
          { restS: 25, holdWater: true },
          { rowS: 325, rateSpm: 33, startSpm: 38, label: 'race' },
          { restS: 60 },
        ],
      });
