import { describe, expect, it } from 'vitest';
import { type Scenario, scenario } from '../../src/contract/scenario.js';
import { craftModel } from '../../src/simulate/craft-model.js';
import { hullResponse, hullSize } from '../../src/simulate/hull-response.js';
import { simulate } from '../../src/simulate/index.js';
import { seaSpectrum } from '../../src/simulate/sea.js';
import { rmsOf, shareWithin, spreadOfEnvelope } from '../simulator/band-figures.js';

const HEADING_DEG = 30;
const still: Scenario = {
  craft: '2x',
  seed: 5,
  path: { kind: 'moored', heading_deg: HEADING_DEG },
  script: [{ do: 'rest', time_s: 600 }],
  sensors: { imu: { hz: 50, noise_mps2: 0, bias_mps2: 0, rotation: true, rotation_noise_dps: 0 } },
};

const axesOf = (asked: Scenario) => {
  const { imu } = simulate(scenario.parse(asked));
  // trim is none of a wave's doing
  const moving = imu!.channels.acceleration!.columns.map((column) => {
    const mean = column.reduce((sum, value) => sum + value, 0) / column.length;
    return column.map((value) => value - mean);
  });
  const [surge, sway, heave] = moving as [Float64Array, Float64Array, Float64Array];
  return { surge, sway, heave, rotation: imu!.channels.rotation!.columns };
};

describe('waves of the simulator', () => {
  const swell = { kind: 'swell', hz: 0.8, surge_mps2: 0.5, from_deg: HEADING_DEG } as const;

  it('make a swell of the size and width that is asked, which wanders as a band of noise does', () => {
    const { surge, heave } = axesOf({ ...still, waves: [{ ...swell, heave_mps2: 0.6 }] });
    expect(rmsOf(surge) / 0.5).toBeCloseTo(1, 1);
    expect(rmsOf(heave) / 0.6).toBeCloseTo(1, 1);
    expect(shareWithin(surge, 50, 0.8 * 2 ** (-1 / 6), 0.8 * 2 ** (1 / 6))).toBeGreaterThan(0.9);
    // Rayleigh's law: sd / mean = sqrt(4 / π - 1) = 0.523
    expect(spreadOfEnvelope(surge, 50, 0.8)).toBeGreaterThan(0.42);
    expect(spreadOfEnvelope(surge, 50, 0.8)).toBeLessThan(0.62);
  });

  it('come from a side: from abeam they roll the hull and do not surge it', () => {
    const abeam = { ...swell, from_deg: HEADING_DEG + 90, sway_mps2: 0.4, roll_deg: 2, yaw_deg: 1 };
    const { surge, sway, rotation } = axesOf({ ...still, waves: [abeam] });
    expect(rmsOf(surge)).toBeLessThan(0.01);
    expect(rmsOf(sway)).toBeGreaterThan(0.3);
    // 2° at 0.8 Hz turn at 10° a second
    expect((rmsOf(rotation[0]!) * 180) / Math.PI).toBeGreaterThan(8);
    expect((rmsOf(rotation[2]!) * 180) / Math.PI).toBeGreaterThan(4);
  });

  it('are met sooner by a boat that runs into them, later by one that runs before them', () => {
    const met = (fromDeg: number) => {
      const moved: Scenario['script'] = [{ do: 'moved', by: 'tow', time_s: 300, speed_mps: 3 }];
      const path = { kind: 'straight', heading_deg: HEADING_DEG } as const;
      const waves = [{ ...swell, hz: 0.5, octaves: 0.05, surge_mps2: 2, from_deg: fromDeg }];
      return axesOf({ ...still, path, script: moved, waves }).surge.subarray(1000, 14_000);
    };
    // omega (1 ± omega v / g): 0.5 Hz at 3 m/s becomes 0.98 Hz head on, 0.02 Hz from behind
    expect(shareWithin(met(HEADING_DEG), 50, 0.9, 1.06)).toBeGreaterThan(0.9);
    expect(shareWithin(met(HEADING_DEG + 180), 50, 0.9, 1.06)).toBeLessThan(0.02);
  });

  it('pass as a wake that swells and dies away', () => {
    const wake = { ...swell, kind: 'wake', at_s: 200, length_s: 40 } as const;
    const { surge } = axesOf({ ...still, waves: [wake] });
    expect(rmsOf(surge.subarray(50 * 215, 50 * 225)) / 0.5).toBeCloseTo(0.95, 1);
    expect(rmsOf(surge.subarray(0, 50 * 199))).toBeLessThan(0.01);
    expect(rmsOf(surge.subarray(50 * 241))).toBeLessThan(0.01);
  });

  it.each(['jonswap', 'pierson_moskowitz'] as const)('raise a sea by its height: %s', (spectrum) => {
    const sized = (height_m: number) => {
      const { heave } = axesOf({
        ...still,
        craft: 'dragon',
        waves: [{ kind: 'sea', spectrum, height_m, peak_hz: 0.15, from_deg: HEADING_DEG }],
      });
      return heave;
    };
    const [low, high] = [sized(0.2), sized(0.6)];
    expect(rmsOf(high) / rmsOf(low)).toBeCloseTo(3, 1);
    // a hull follows long waves: elevation of sd 0.05 m, nearly all of it from 0.12 to 0.3 Hz
    expect(rmsOf(low)).toBeGreaterThan(0.05 * (2 * Math.PI * 0.12) ** 2);
    expect(rmsOf(low)).toBeLessThan(0.05 * (2 * Math.PI * 0.3) ** 2);
  });

  it('have spectra whose mean periods are those of the standard', () => {
    // DNV-RP-C205 3.5.5: Tz / Tp = 0.6673 + 0.05037 γ - 0.006230 γ² + 0.0003341 γ³ (value from memory)
    const zeroCrossing = (spectrum: 'jonswap' | 'pierson_moskowitz') => {
      let [m0, m2] = [0, 0];
      for (let hz = 0.3; hz < 12; hz += 0.001) {
        const power = seaSpectrum(hz, 1, spectrum);
        m0 += power;
        m2 += power * hz * hz;
      }
      return Math.sqrt(m0 / m2);
    };
    expect(zeroCrossing('pierson_moskowitz')).toBeCloseTo(0.711, 2);
    expect(zeroCrossing('jonswap')).toBeCloseTo(0.778, 2);
  });

  it('carry a hull with their surface where they are long, and hardly move it where they are short', () => {
    const hull = hullSize(craftModel('2x'));
    const long = hullResponse(0.2, Math.PI, 0, hull);
    const k = 0.04 / 9.80665;
    expect(long.heave).toBeCloseTo(-0.04, 3);
    expect(Math.abs(long.pitch) / k).toBeCloseTo(1, 1);
    // what surges it, its pitch takes back: the water's surface is level to whoever floats on it
    expect(Math.abs(long.surge + 9.80665 * long.pitch)).toBeLessThan(0.05 * Math.abs(long.surge));
    const short = hullResponse(8, Math.PI, 0, hull);
    expect(Math.abs(short.surge)).toBeLessThan(0.15 * 64);
  });

  it('are not needed to shake a boat that others move: carried it heaves above all, and nobody rows', () => {
    const moved = (by: 'tow' | 'hands' | 'trailer') => {
      const asked: Scenario = {
        ...still,
        path: { kind: 'straight', heading_deg: 0 },
        script: [
          { do: 'rest', time_s: 20 },
          { do: 'moved', by, time_s: 120 },
          { do: 'rest', time_s: 20 },
        ],
      };
      const { truth } = simulate(asked);
      expect(truth.catchMarksS).toEqual([]);
      return { ...axesOf(asked), speedMps: truth.speedMps[8000]! };
    };
    const hands = moved('hands');
    expect(rmsOf(hands.heave.subarray(2000, 6000))).toBeGreaterThan(
      2 * rmsOf(hands.surge.subarray(2000, 6000)),
    );
    expect(hands.speedMps).toBeCloseTo(1.2, 2);
    expect(moved('trailer').speedMps).toBeGreaterThan(8);
    expect(moved('tow').speedMps).toBeCloseTo(2.5, 2);
  });

  it('let a boat lie still over ground where it is tied up between pieces', () => {
    const asked: Scenario = {
      craft: '4x',
      seed: 1,
      stream: { mps: 0.5, to_deg: 90 },
      script: [
        { do: 'row', rate_spm: 24, time_s: 60 },
        { do: 'rest', time_s: 60 },
        { do: 'rest', time_s: 60, moored: true },
      ],
      sensors: { gnss: { hz: 1 } },
    };
    const { alongM, speedMps, stepS, stretches } = simulate(asked).truth;
    const tied = stretches.at(-1)!;
    expect(speedMps[Math.round((tied.toS - 1) / stepS)]).toBe(0);
    expect(alongM[Math.round((tied.toS - 1) / stepS)]! - alongM[Math.round((tied.fromS + 1) / stepS)]!).toBe(
      0,
    );
    expect(speedMps[Math.round((tied.fromS - 1) / stepS)]).toBeCloseTo(0.5, 1);
  });
});
