import { describe, expect, it } from 'vitest';
import { smoothTrack } from '../../src/motion/index.js';
import { sectionsOf } from '../../src/motion/section.js';
import { speedAhead, speedLag } from '../../src/motion/speed-lag.js';
import type { Recording } from '../../src/recording/index.js';
import { simulateTwin } from '../simulator/twin.js';
import { evenTimes, straightLog } from './made-log.js';

const SCRIPT = [1, 2, 3].flatMap(() => [{ restS: 60 }, { rowS: 200, rateSpm: 26 }]);

const watch = (seed: number, speedSmoothS: number, positionSmoothS: number): Recording =>
  simulateTwin({
    seed,
    script: [...SCRIPT, { restS: 60 }],
    receiver: { rateHz: 1, dopplerSdMps: 0.08, wanderSdM: 2, wanderS: 60, speedSmoothS, positionSmoothS },
    imu: null,
  }).track!;

const lagOf = ({ channels: { position, speed } }: Recording) =>
  speedLag(sectionsOf(position!, speed!, null).sections[0]!);

describe('the lag of a logged speed', () => {
  it.each([3, 5])('is half of the %d s that a watch takes the mean over', (smoothS) => {
    for (const seed of [1, 2, 3]) {
      const { value, sd } = lagOf(watch(seed, smoothS, 0))!;
      expect(Math.abs(value - smoothS / 2)).toBeLessThan(Math.max(0.5, 3 * sd));
    }
  });

  it('is none where the speed does not lag, and where the positions lag as much', () => {
    for (const seed of [1, 2, 3]) {
      expect(lagOf(watch(seed, 0, 0))).toBeNull();
      expect(lagOf(watch(seed, 3, 3))).toBeNull();
    }
  });

  it('is said, and the speed taken for earlier', () => {
    const { warnings } = smoothTrack(watch(1, 4, 0), { boat: null });
    expect(warnings.find(({ code }) => code === 'speed-lags')!.message).toMatch(/by (1\.[6-9]|2\.[0-4]) s/);
  });

  it('moves a speed by whole and by broken seconds', () => {
    const { speed } = straightLog({
      atS: evenTimes(10, 1),
      alongM: (at) => at * at,
      speedMps: (at) => 2 * at,
    }).channels;
    const { atS, columns } = speedAhead(speed!, 1.5);
    expect([...atS]).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8]);
    for (const [i, mps] of columns[0]!.entries()) expect(mps).toBeCloseTo(2 * (i + 1.5), 9);
  });
});
