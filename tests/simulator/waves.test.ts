import { describe, expect, it } from 'vitest';
import { rmsOf, shareWithin, spreadOfEnvelope } from './band-figures.js';
import type { ChopAsk } from './chop.js';
import type { RestStep } from './script.js';
import { USUAL_SWELL } from './swell.js';
import { simulateTwin } from './twin.js';

const HEADING_DEG = 40;

const axesOf = (chop: Partial<ChopAsk>, rest: RestStep = { restS: 600, moored: true }) => {
  const { imu, truth } = simulateTwin({
    seed: 6,
    receiver: null,
    script: [rest],
    waters: { headingDeg: HEADING_DEG, steeringSdDeg: 0 },
    chop,
    imu: { rateHz: 50, noiseSdMps2: 0, biasSdMps2: 0, warmingSdMps2: 0, leverM: 0 },
  });
  const [surge, sway, up] = imu!.channels.acceleration!.columns as [Float64Array, Float64Array, Float64Array];
  return { surge, sway, heave: up.map((value) => value - 9.80665), truth };
};

describe('waves of the second simulator', () => {
  const swell = { ...USUAL_SWELL, hz: 0.8, surgeMps2: 0.5, toDeg: HEADING_DEG + 180 };

  it('make a swell of the size and width that is asked, which wanders as a band of noise does', () => {
    const { surge, heave } = axesOf({ swells: [swell] });
    expect(rmsOf(surge) / 0.5).toBeCloseTo(1, 1);
    expect(rmsOf(heave) / (0.5 * swell.heave)).toBeCloseTo(1, 1);
    const half = 2 ** (1 / 6);
    expect(shareWithin(surge, 50, 0.8 / half, 0.8 * half)).toBeGreaterThan(0.4);
    expect(shareWithin(surge, 50, 0.8 / half ** 4, 0.8 * half ** 4)).toBeGreaterThan(0.75);
    // Rayleigh's law: sd / mean = sqrt(4 / π - 1) = 0.523
    expect(spreadOfEnvelope(surge, 50, 0.8)).toBeGreaterThan(0.42);
    expect(spreadOfEnvelope(surge, 50, 0.8)).toBeLessThan(0.62);
  });

  it('are met sooner by a boat that runs into them', () => {
    const towed = { restS: 300, movedBy: 'tow' } as const;
    const { surge } = axesOf({ swells: [{ ...swell, hz: 0.5, octaves: 0.1, surgeMps2: 3 }] }, towed);
    // omega (1 + omega v / g): 0.5 Hz at 2.2 m/s becomes 0.85 Hz
    expect(shareWithin(surge.subarray(1000, 14_000), 50, 0.77, 0.93)).toBeGreaterThan(0.8);
  });

  it('come and go where a time is given', () => {
    const { surge } = axesOf({ swells: [{ ...swell, fromS: 100, toS: 200 }] });
    expect(rmsOf(surge.subarray(0, 50 * 99))).toBeLessThan(0.01);
    expect(rmsOf(surge.subarray(50 * 110, 50 * 190))).toBeGreaterThan(0.25);
    expect(rmsOf(surge.subarray(50 * 201))).toBeLessThan(0.01);
  });

  it('raise a sea by its height', () => {
    const sea = { heightM: 0.2, peakHz: 0.15, toDeg: HEADING_DEG + 180, hullM: 10 };
    const { heave, surge } = axesOf({ seas: [sea] });
    expect(rmsOf(heave)).toBeGreaterThan(0.05 * (2 * Math.PI * 0.12) ** 2);
    expect(rmsOf(heave)).toBeLessThan(0.05 * (2 * Math.PI * 0.3) ** 2);
    // a hull on long waves hardly surges against its own deck: slope and surge cancel
    expect(rmsOf(surge)).toBeLessThan(rmsOf(heave));
  });

  it('are not needed to shake a boat that others move', () => {
    const speeds = (['tow', 'hands', 'trailer'] as const).map((movedBy) => {
      const { truth, surge, heave } = axesOf({}, { restS: 120, movedBy });
      expect(truth.catchMarksS).toEqual([]);
      if (movedBy === 'hands') expect(rmsOf(heave)).toBeGreaterThan(1.5 * rmsOf(surge));
      return truth.speedMps[6000]!;
    });
    expect(speeds[0]).toBeCloseTo(2.2, 1);
    expect(speeds[1]).toBeCloseTo(1.3, 1);
    expect(speeds[2]).toBeCloseTo(10, 1);
  });
});
