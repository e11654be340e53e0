import { describe, expect, it } from 'vitest';
import { destination } from '../../src/geodesy/index.js';
import { smoothTrack } from '../../src/motion/index.js';
import { makeRandom } from '../simulator/random.js';
import { simulateTwin, type TwinAsk } from '../simulator/twin.js';
import { evenTimes, straightLog } from './made-log.js';

const SCRIPT = [{ restS: 60 }, { rowS: 300, rateSpm: 26 }, { restS: 90 }, { rowS: 300, rateSpm: 24 }];

const track = (seed: number, receiver: NonNullable<TwinAsk['receiver']>) =>
  smoothTrack(simulateTwin({ seed, script: SCRIPT, receiver, imu: null }).track!, { boat: null });

describe('a receiver that is worse than it is believed to be', () => {
  it.each([
    ['10 Hz with speed', { rateHz: 10 }, 1.05],
    ['1 Hz with speed', { rateHz: 1 }, 1.2],
    ['1 Hz, positions alone', { rateHz: 1, dopplerSdMps: null }, 1.2],
  ])('shows where signals are reflected: %s', (_, receiver, least) => {
    const usual = { wanderSdM: 2, wanderS: 60, ...receiver };
    const clean = track(3, usual);
    const reflected = track(3, { ...usual, reflections: [[480, 600, 5, 15]] });
    expect(clean.warnings.map(({ code }) => code)).not.toContain('position-reflections');
    const { where } = reflected.warnings.find(({ code }) => code === 'position-reflections')!;
    const atS = Number(/at ([\d.]+) s/.exec(where!)![1]);
    expect(Math.abs(atS - 480)).toBeLessThan(35);
    // A time at a line there is less sure, a little where the speed ties the places to those before and after; one
    // elsewhere is no less sure than it was.
    const crossingSd = ({ track: found }: typeof clean, atS: number): number => {
      const place = found!.placeAt(atS)!;
      const heading = found!.headingAt(atS)!;
      const [crossing] = found!.crossings({
        from: destination(place, heading - 90, 40),
        to: destination(place, heading + 90, 40),
        bowOffsetM: 0,
        bowOffsetSdM: 0,
        within: { fromS: atS - 20, toS: atS + 20 },
      });
      return crossing!.sdS;
    };
    expect(crossingSd(reflected, 560)).toBeGreaterThan(least * crossingSd(clean, 560));
    expect(crossingSd(reflected, 200)).toBeLessThan(1.1 * crossingSd(clean, 200));
  });

  it('shows in a moored log of a first-order wander of 6 m, which is said and used', () => {
    const random = makeRandom(4);
    const keep = Math.exp(-1 / 60);
    const atS = evenTimes(900, 1);
    let state = 6 * random.normal();
    const off = atS.map(() => (state = keep * state + 6 * Math.sqrt(1 - keep * keep) * random.normal()));
    const log = straightLog({ atS, alongM: () => 0, offM: (i) => off[i]! });
    const { track: found, warnings } = smoothTrack(log, { boat: null });
    expect(warnings.map(({ code }) => code)).toContain('receiver-worse');
    expect(found!.errorModel.positionSdM).toBeGreaterThan(3);
    const told = smoothTrack(log, { boat: { position_sd_m: 6, correlation_s: 60 } });
    expect(told.warnings.map(({ code }) => code)).not.toContain('receiver-worse');
    expect(told.track!.errorModel.positionSdM).toBe(6);
  });
});
