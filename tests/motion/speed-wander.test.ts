import { describe, expect, it } from 'vitest';
import { excessLikelihoods, excessSwings } from '../../src/motion/excess-likelihood.js';
import { glidesOf } from '../../src/motion/glide.js';
import { smoothTrack } from '../../src/motion/index.js';
import { pathExcess } from '../../src/motion/path-excess.js';
import { sectionsOf } from '../../src/motion/section.js';
import type { Recording } from '../../src/recording/index.js';
import { simulateTwin } from '../simulator/twin.js';
import { evenTimes, straightLog } from './made-log.js';

const SCRIPT = [
  { restS: 30 },
  { rowS: 200, rateSpm: 26 },
  { restS: 60 },
  { rowS: 200, rateSpm: 28 },
  { restS: 60 },
  { rowS: 200, rateSpm: 24 },
  { restS: 60 },
];

const logOf = (seed: number, dopplerWanderSdMps: number): Recording =>
  simulateTwin({ seed, script: SCRIPT, receiver: { dopplerWanderSdMps, dopplerWanderS: 3 }, imu: null })
    .track!;

/** Root of the variance that the wander adds to the sum of the speed in a second, m. */
const rootOf = (recording: Recording, boat: Parameters<typeof smoothTrack>[1]['boat'] = null): number => {
  const { sdMps, correlationS } = smoothTrack(recording, { boat }).track!.errorModel.speedWander!;
  return Math.sqrt(2 * sdMps ** 2 * correlationS);
};

const sectionOf = ({ channels: { position, speed } }: Recording) =>
  sectionsOf(position!, speed!, null).sections[0]!;

describe('the wandering error of a logged speed', () => {
  it.each([0.06, 0.1])('is found within a factor of two where glides show it: %d m/s over 3 s', (sdMps) => {
    const truth = Math.sqrt(2 * sdMps ** 2 * 3);
    for (const seed of [1, 2, 3]) {
      const root = rootOf(logOf(seed, sdMps));
      expect(root / truth).toBeGreaterThan(0.5);
      expect(root / truth).toBeLessThan(2);
    }
  });

  it('is believed to be less where there is none, though a log of so few minutes cannot show that', () => {
    const mean = (sdMps: number): number =>
      [1, 2, 3, 4].reduce((sum, seed) => sum + rootOf(logOf(seed, sdMps)) / 4, 0);
    // 0.02 m/s over 30 s, which hides in the errors of positions, makes 0.155
    expect(mean(0)).toBeLessThan(0.155);
    expect(mean(0)).toBeLessThan(mean(0.1));
  });

  it('comes from the boat file where that tells it', () => {
    const boat = { speed_wander_sd_mps: 0.04, speed_wander_s: 12 };
    expect(smoothTrack(logOf(1, 0), { boat }).track!.errorModel.speedWander).toEqual({
      sdMps: 0.04,
      correlationS: 12,
    });
  });

  it('is null where no speed is logged', () => {
    const log = straightLog({ atS: evenTimes(100, 1), alongM: (at) => 4 * at });
    expect(smoothTrack(log, { boat: null }).track!.errorModel.speedWander).toBeNull();
  });
});

describe('the excess of the summed speed over the fixes', () => {
  it('grows by what the speed is too fast, whatever the course', () => {
    const log = straightLog({
      atS: evenTimes(100, 5),
      alongM: (at) => 4 * at,
      bearingDeg: 130,
      speedMps: () => 4.1,
    });
    const { atS, metres, begins } = pathExcess(sectionOf(log), 2);
    const last = atS.length - 1;
    expect((metres[last]! - metres[0]!) / (atS[last]! - atS[0]!)).toBeCloseTo(0.1, 3);
    expect([...begins].filter(Boolean)).toHaveLength(1);
  });

  it('is likelier under the errors that it was made with than under half or twice of them', () => {
    const made = simulateTwin({
      seed: 5,
      script: [{ rowS: 1500, rateSpm: 22 }],
      receiver: { wanderSdM: 0.3, wanderS: 60, dopplerWanderSdMps: 0.1, dopplerWanderS: 4 },
      imu: null,
    }).track!;
    const swings = excessSwings(pathExcess(sectionOf(made), 2), 0.15, 0.05 ** 2 / 10);
    const at = (sdMps: number): number =>
      excessLikelihoods(
        swings,
        [{ sdMps, correlationS: 4 }],
        [{ position: { sdM: 0.3, correlationS: 60 }, smoothShare: 0.5 }],
      )[0]![0]!;
    expect(at(0.1)).toBeGreaterThan(at(0.05) + 3);
    expect(at(0.1)).toBeGreaterThan(at(0.2) + 3);
  });
});

describe('glides', () => {
  it('are the stretches after the pieces, and none of rowing', () => {
    const section = sectionOf(logOf(1, 0));
    const glides = glidesOf(section, 0.05);
    expect(glides).toHaveLength(3);
    const rowed = sectionOf(
      simulateTwin({ seed: 1, script: [{ rowS: 120, rateSpm: 20 }], imu: null }).track!,
    );
    expect(glidesOf(rowed, 0.05)).toEqual([]);
  });
});
