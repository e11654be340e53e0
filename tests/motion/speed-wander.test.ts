import { describe, expect, it } from 'vitest';
import { excessLikelihood } from '../../src/motion/excess-likelihood.js';
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
  it('is found within a factor of two where glides show it, and is less where there is none', () => {
    const truth = Math.sqrt(2 * 0.06 ** 2 * 3);
    const found = [1, 2, 3].map((seed) => rootOf(logOf(seed, 0.06)));
    const none = [1, 2, 3].map((seed) => rootOf(logOf(seed, 0)));
    found.forEach((root, i) => {
      expect(root / truth).toBeGreaterThan(0.5);
      expect(root / truth).toBeLessThan(2.5);
      expect(none[i]!).toBeLessThan(root);
    });
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
    const excess = pathExcess(sectionOf(made), 2);
    const at = (sdMps: number): number =>
      excessLikelihood(excess, {
        position: { sdM: 0.3, correlationS: 60 },
        speed: { sdMps, correlationS: 4 },
        whiteSdM: 0.15,
        whiteM2ps: 0.05 ** 2 / 10,
      });
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
