import { describe, expect, it } from 'vitest';
import { smoothTrack } from '../../src/motion/index.js';
import { evenTimes, straightLog } from '../motion/made-log.js';
import { makeRandom } from '../simulator/random.js';

/** Sum of the straight steps between fixes, m: what a naive tool would call distance. */
const summed = (atS: readonly number[], east: readonly number[], north: readonly number[]): number =>
  atS.reduce(
    (sum, _, i) => (i === 0 ? 0 : sum + Math.hypot(east[i]! - east[i - 1]!, north[i]! - north[i - 1]!)),
    0,
  );

describe('distance where summed fixes go wrong', () => {
  it('noise of 1.5 m an axis makes steps of 4.5 m 12.0 % too long when summed (Ranacher et al. 2016, IJGIS 30:316-333); the track is right to 0.4 %', () => {
    const random = makeRandom(7);
    const atS = evenTimes(1500, 1);
    const noise = atS.map(() => [1.5 * random.normal(), 1.5 * random.normal()] as const);
    const naive = summed(
      atS,
      noise.map(([east]) => east),
      atS.map((at, i) => 4.5 * at + noise[i]![1]),
    );
    // Formula from memory, 5.04015 m a step by Monte Carlo.
    expect(naive / 1500).toBeGreaterThan(4.97);
    expect(naive / 1500).toBeLessThan(5.11);
    const log = straightLog({ atS, alongM: (at) => 4.5 * at, offM: (i) => noise[i]![1], bearingDeg: 90 });
    const { track } = smoothTrack(log, { boat: null });
    expect(Math.abs(track!.distanceM(0, 1500)!.value / 6750 - 1)).toBeLessThan(0.004);
  });

  it('a moored receiver (3 m over 60 s, 1 Hz) travels about 410 m in 10 min when steps are summed (computed); the track under 15 m', () => {
    const random = makeRandom(3);
    const keep = Math.exp(-1 / 60);
    const atS = evenTimes(600, 1);
    const wander = () => {
      let state = 3 * random.normal();
      return atS.map(() => (state = keep * state + 3 * Math.sqrt(1 - keep * keep) * random.normal()));
    };
    const [east, north] = [wander(), wander()];
    const naive = summed(atS, east, north);
    expect(naive).toBeGreaterThan(370);
    expect(naive).toBeLessThan(450);
    const log = straightLog({ atS, alongM: () => 0, offM: (i) => north[i]! });
    const { track } = smoothTrack(log, { boat: { position_sd_m: 3, correlation_s: 60 } });
    expect(track!.distanceM(0, 600)!.value).toBeLessThan(15);
  });

  it('white Doppler noise of 0.05 m/s at 1 Hz integrates to 1.0 m in 400 s (computed): the stated sd says so', () => {
    const random = makeRandom(11);
    const log = straightLog({
      atS: evenTimes(2000, 1),
      alongM: (at) => 4.5 * at,
      speedMps: () => 4.5 + 0.05 * random.normal(),
    });
    // A wandering error that is as good as unknown leaves the distance to the logged speed alone.
    const boat = { position_sd_m: 50, correlation_s: 60, speed_wander_sd_mps: 0 };
    const { track } = smoothTrack(log, { boat });
    const { value, sd } = track!.distanceM(800, 1200)!;
    expect(Math.abs(value - 1800)).toBeLessThan(3);
    expect(sd).toBeGreaterThan(0.8);
    expect(sd).toBeLessThan(1.3);
  });
});
