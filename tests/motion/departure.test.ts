import { describe, expect, it } from 'vitest';
import { departureAfter, smoothTrack } from '../../src/motion/index.js';
import { simulateTwin } from '../simulator/twin.js';

describe('a first movement from rest', () => {
  const errors = (doppler: boolean): number[] =>
    Array.from({ length: 12 }, (_, seed) => {
      const { track, truth } = simulateTwin({
        seed: seed + 1,
        craft: '4x',
        imu: null,
        script: [{ restS: 60 }, { rowS: 60, rateSpm: 34, startSpm: 42 }],
        receiver: { rateHz: 10, dopplerSdMps: doppler ? 0.05 : null },
      });
      const smooth = smoothTrack(track!, { boat: { position_sd_m: 1.5, correlation_s: 120 } }).track!;
      const rest = smooth.stationary[0]!;
      return departureAfter(smooth, rest.toS)!.atS - truth.catchMarksS[0]!;
    });

  it('is found within 0.35 s where speed is logged', () => {
    for (const error of errors(true)) expect(Math.abs(error)).toBeLessThan(0.35);
  });

  it('is found within 3 s from positions alone', () => {
    for (const error of errors(false)) expect(Math.abs(error)).toBeLessThan(3);
  });

  it('is none where the boat stays', () => {
    const { track } = simulateTwin({ seed: 1, imu: null, script: [{ restS: 120, moored: true }] });
    expect(departureAfter(smoothTrack(track!, { boat: null }).track!, 30)).toBeNull();
  });
});
