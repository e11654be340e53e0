import { describe, expect, it } from 'vitest';
import { smoothTrack } from '../../src/motion/index.js';
import { simulateTwin } from '../simulator/twin.js';
import { evenTimes, straightLog } from './made-log.js';

describe('a gap without fixes', () => {
  it.each([1, 5, 10])(
    'of 20 s is bridged at %d Hz: figures across it hold, with a wider ±, and it is said',
    (rateHz) => {
      const made = simulateTwin({
        seed: 9,
        script: [{ restS: 30 }, { rowS: 300, rateSpm: 26 }],
        receiver: { rateHz, outages: [[150, 170]] },
        imu: null,
      });
      const whole = simulateTwin({
        seed: 9,
        script: [{ restS: 30 }, { rowS: 300, rateSpm: 26 }],
        receiver: { rateHz },
        imu: null,
      });
      const { track, warnings } = smoothTrack(made.track!, { boat: null });
      const clean = smoothTrack(whole.track!, { boat: null }).track!;
      expect(track!.outages).toEqual([]);
      expect(track!.bridges).toHaveLength(1);
      expect(warnings.find(({ code }) => code === 'position-bridged')!.where).toMatch(/^at 1(49|50)/);
      const { stepS, alongM } = made.truth;
      const trueM = alongM[Math.round(250 / stepS)]! - alongM[Math.round(100 / stepS)]!;
      const { value, sd } = track!.distanceM(100, 250)!;
      expect(Math.abs(value - trueM)).toBeLessThan(2.5 * sd);
      expect(sd).toBeGreaterThan(clean.distanceM(100, 250)!.sd);
      // A mark inside the gap has a time, less sure than one outside.
      const inside = track!.timeAfter(100, track!.alongAt(160)! - track!.alongAt(100)!)!;
      const outside = track!.timeAfter(100, track!.alongAt(145)! - track!.alongAt(100)!)!;
      expect(inside.durationSdS).toBeGreaterThan(outside.durationSdS);
      expect(track!.speedAt(160)!).toBeGreaterThan(3);
    },
  );

  it('bends with the course', () => {
    // A circle of 100 m: 20 s at 4 m/s turn it by 46°, of which the chord is 2.1 m short.
    const radiusM = 100;
    const atS = evenTimes(200, 1).filter((at) => at <= 90 || at >= 110);
    const log = straightLog({ atS, alongM: () => 0 });
    const [lat, lon] = log.channels.position!.columns as [Float64Array, Float64Array];
    const made = {
      ...log,
      channels: {
        position: {
          ...log.channels.position!,
          columns: [
            lat.map((deg, i) => deg + (radiusM * Math.sin((4 * atS[i]!) / radiusM)) / 111_141),
            lon.map(
              (deg, i) =>
                deg +
                (radiusM * Math.cos((4 * atS[i]!) / radiusM)) / (111_320 * Math.cos((46 * Math.PI) / 180)),
            ),
          ],
        },
      },
    };
    const { track } = smoothTrack(made, { boat: null });
    const { value, sd } = track!.distanceM(90, 110)!;
    const chordM = 2 * radiusM * Math.sin(40 / radiusM);
    expect(Math.abs(value - 80)).toBeLessThan(80 - chordM);
    expect(Math.abs(value - 80)).toBeLessThan(2 * sd);
  });

  it('of more than 40 s, or where the log itself begins anew, is none that is bridged', () => {
    const long = straightLog({
      atS: evenTimes(200, 1).filter((at) => at <= 60 || at >= 105),
      alongM: (at) => 4 * at,
    });
    expect(smoothTrack(long, { boat: null }).track!.bridges).toEqual([]);
    const anew = straightLog({
      atS: evenTimes(200, 1).filter((at) => at <= 60 || at >= 80),
      alongM: (at) => 4 * at,
      breaksS: [80],
    });
    const { track } = smoothTrack(anew, { boat: null });
    expect([track!.bridges, track!.outages.length]).toEqual([[], 1]);
  });
});
