import { standardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import type { Scenario } from '../../../src/contract/scenario.js';
import { geodesicBetween, stepBetween } from '../../../src/geodesy/index.js';
import { butterworth, twoPassCutoff, zeroPhase } from '../../../src/signal/index.js';
import { chopOf } from '../../../src/simulate/chop.js';
import { gaussMarkov } from '../../../src/simulate/gauss-markov.js';
import { type BoatTruth, simulate } from '../../../src/simulate/index.js';
import { randomFrom } from '../../../src/simulate/random.js';
import { CRAFT_CODES, type Craft, craftFamily } from '../../../src/units/craft.js';

const steady = (craft: Craft, rateSpm: number): BoatTruth =>
  simulate({
    craft,
    seed: 5,
    crew: { rate_sd_pct: 0, force_sd_pct: 0 },
    script: [{ do: 'row', rate_spm: rateSpm, time_s: 100 }],
    sensors: { gnss: { hz: 1 } },
  }).truth;

/** Figures of one late, settled stroke. */
const settled = (truth: BoatTruth) => {
  const stroke = truth.strokes[truth.strokes.length - 4]!;
  const from = Math.round(stroke.atS / truth.stepS);
  const to = Math.round((stroke.atS + stroke.periodS) / truth.stepS);
  const speeds = Array.from(truth.waterSpeedMps.subarray(from, to));
  const mean = speeds.reduce((sum, v) => sum + v, 0) / speeds.length;
  const cubes = speeds.reduce((sum, v) => sum + v ** 3, 0) / speeds.length;
  const low = zeroPhase(truth.surgeMps2, butterworth(2, twoPassCutoff(10 * truth.stepS)), 100);
  const [min, max] = [Math.min(...speeds), Math.max(...speeds)];
  return {
    mean,
    below: 1 - min / mean,
    above: max / mean - 1,
    extraPct: 100 * (cubes / mean ** 3 - 1),
    lowestDriveShare: (speeds.indexOf(min) * truth.stepS) / stroke.driveS,
    highestRecoveryShare:
      (speeds.indexOf(max) * truth.stepS - stroke.driveS) / (stroke.periodS - stroke.driveS),
    catchMps2: Math.min(...low.subarray(from - 20, to)),
    driveShare: stroke.driveS / stroke.periodS,
  };
};

describe('the simulated rowing boat', () => {
  it.each([
    // common practice: an eight races at 5.5 to 6 m/s; a single paddles at 20 with about 3.8 m/s
    ['8+', 36, 5.5, 6],
    ['1x', 20, 3.7, 3.9],
  ] as const)('%s at %d goes at %d to %d m/s', (craft, rate, from, to) => {
    const { mean } = settled(steady(craft, rate));
    expect(mean).toBeGreaterThan(from);
    expect(mean).toBeLessThan(to);
  });

  it.each(['1x', '2-', '2x', '4x', '4-', '8+'] as const)('%s swings in speed as boats do', (craft) => {
    for (const rate of [20, 28, 36]) {
      const found = settled(steady(craft, rate));
      // about 20 % of the mean, Physics Today 2017; the swing down at the catch is the larger one
      expect(found.below).toBeGreaterThan(0.15);
      expect(found.below).toBeLessThan(0.33);
      expect(found.above).toBeGreaterThan(0.05);
      expect(found.above).toBeLessThan(0.22);
      // hull power about 5 % above steady, de Brouwer et al. 2013: 5-6 %; an eight less, a single more
      expect(found.extraPct).toBeGreaterThan(2);
      expect(found.extraPct).toBeLessThan(7);
      // peak catch deceleration, low-passed at 5 Hz: common practice
      expect(found.catchMps2).toBeLessThan(-4);
      expect(found.catchMps2).toBeGreaterThan(-9);
      // lowest speed about 27 % into the leg drive: Martin & Bernfield 1980
      expect(found.lowestDriveShare).toBeGreaterThan(0.15);
      expect(found.lowestDriveShare).toBeLessThan(0.35);
    }
  });

  it('is fastest in the middle of the recovery at race rates', () => {
    // Martin & Bernfield 1980: Olympic eight, 37 to 41 spm
    for (const rate of [37, 41]) {
      const { highestRecoveryShare } = settled(steady('8+', rate));
      expect(highestRecoveryShare).toBeGreaterThan(0.35);
      expect(highestRecoveryShare).toBeLessThan(0.75);
    }
  });

  it('drives for a larger share of the cycle at a higher rate', () => {
    // value from memory: 35-40 % of the cycle at 20 spm, near 50 % at 36-40
    const [slow, fast] = [settled(steady('4-', 20)).driveShare, settled(steady('4-', 38)).driveShare];
    expect(slow).toBeGreaterThan(0.34);
    expect(slow).toBeLessThan(0.41);
    expect(fast).toBeGreaterThan(0.45);
    expect(fast).toBeLessThan(0.51);
  });

  it('follows constant work a stroke: 20 to 36 spm is 1.21644 times the speed', () => {
    // computed: (36/20)^(1/3)
    for (const craft of ['1x', '8+'] as const) {
      const ratio = settled(steady(craft, 36)).mean / settled(steady(craft, 20)).mean;
      expect(ratio).toBeGreaterThan(1.21644 * 0.985);
      expect(ratio).toBeLessThan(1.21644 * 1.015);
    }
  });

  it.each(CRAFT_CODES)('%s stays below the world best time of its class over 2000 m', (craft) => {
    // world best times as ceilings: M1x 6:30.74 (2017), M2- 6:08.50 (2012), M4x 5:32.03 (2021),
    // M4- 5:37.86 (2012), published; M8+ 5:18.68 (2017), M2x 5:59.72 (2014), value from memory
    const bestS: Partial<Record<Craft, number>> = {
      '1x': 390.74,
      '2-': 368.5,
      '4x': 332.03,
      '4-': 337.86,
      '8+': 318.68,
      '2x': 359.72,
    };
    const rate = { rowing: 38, kayak: 120, canoe: 65, dragon: 85 }[craftFamily(craft)];
    const { mean } = settled(steady(craft, rate));
    expect(mean).toBeLessThan(2000 / (bestS[craft] ?? 318.68));
    expect(mean).toBeGreaterThan(2);
  });

  it.each(['K1', 'K2', 'C1', 'OC6', 'SUP', 'dragon'] as const)('%s surges far less than a shell', (craft) => {
    const found = settled(steady(craft, { K1: 110, K2: 110, C1: 60, OC6: 60, SUP: 45, dragon: 75 }[craft]));
    expect(found.below).toBeGreaterThan(0.02);
    expect(found.below).toBeLessThan(0.12);
    expect(found.catchMps2).toBeLessThan(-0.5);
    expect(found.catchMps2).toBeGreaterThan(-3);
  });
});

describe('the simulated receiver', () => {
  it('wanders by the Gauss-Markov law: differences of 0.5454 m/s at sd 3 m, 60 s, 1 Hz', () => {
    // computed: sqrt(2 · 3² · (1 - exp(-1/60)))
    const next = gaussMarkov(randomFrom(3, 'test'), 3, 60);
    const errors = Array.from({ length: 200_000 }, () => next(1));
    expect(standardDeviation(errors.slice(1).map((error, i) => error - errors[i]!))).toBeCloseTo(0.5454, 2);
    // 200 000 s hold 1 667 independent errors of the sd: within 5 % unless one in a thousand
    expect(standardDeviation(errors)).toBeGreaterThan(2.85);
    expect(standardDeviation(errors)).toBeLessThan(3.15);
  });

  it('moored, 3 m and 60 s at 1 Hz, seems to travel about 410 m in 10 min', () => {
    // computed by Monte Carlo in the check values
    const travelled = [1, 2, 3, 4, 5].map((seed) => {
      const { track } = simulate({
        craft: '1x',
        seed,
        path: { kind: 'moored', heading_deg: 0, sway_m: 0 },
        script: [{ do: 'rest', time_s: 600 }],
        sensors: { gnss: { hz: 1, position_sd_m: 3, correlation_s: 60, white_sd_m: 0 } },
      });
      return summedM(track!.channels.position!.columns);
    });
    const mean = travelled.reduce((sum, metres) => sum + metres, 0) / travelled.length;
    expect(mean).toBeGreaterThan(380);
    expect(mean).toBeLessThan(440);
  });

  it('with white errors makes 4.5 m steps 12.0 % too long at 1.5 m', () => {
    // Ranacher et al. 2016, IJGIS 30:316-333: 5.04015 m
    const scenario: Scenario = {
      craft: '2x',
      seed: 9,
      crew: { rate_sd_pct: 0, force_sd_pct: 0 },
      path: { kind: 'straight', heading_deg: 40 },
      script: [{ do: 'row', rate_spm: 24, time_s: 3600 }],
      sensors: { gnss: { hz: 1, position_sd_m: 0, white_sd_m: 1.5 } },
    };
    const { track, truth } = simulate(scenario);
    const stepsOf = truth.alongM[truth.alongM.length - 1]! / 3600;
    // the table's step is 4.5 m; σ is scaled to this boat's mean step
    const scaled = simulate({
      ...scenario,
      sensors: { gnss: { hz: 1, position_sd_m: 0, white_sd_m: (1.5 * stepsOf) / 4.5 } },
    });
    expect(track).not.toBeNull();
    const ratio =
      summedM(scaled.track!.channels.position!.columns) /
      scaled.truth.alongM[scaled.truth.alongM.length - 1]!;
    expect(ratio).toBeGreaterThan(1.12 - 0.012);
    expect(ratio).toBeLessThan(1.12 + 0.012);
  });

  it('without errors draws a track as long as the truth, on the ellipsoid', () => {
    const { track, truth } = simulate({
      craft: '4-',
      seed: 2,
      origin: { lat_deg: 51.5, lon_deg: -20 },
      path: { kind: 'out_and_back', heading_deg: 300, leg_m: 3000 },
      script: [{ do: 'row', rate_spm: 22, time_s: 1500 }],
      sensors: { gnss: { hz: 10, position_sd_m: 0, white_sd_m: 0 } },
    });
    const { atS, columns } = track!.channels.position!;
    const endS = atS[atS.length - 1]!;
    const trueM = truth.alongM[Math.round(endS / truth.stepS)]!;
    expect(summedM(columns) / trueM).toBeCloseTo(1, 5);
    const [lat, lon] = columns as [Float64Array, Float64Array];
    const far = geodesicBetween(
      { latDeg: 51.5, lonDeg: -20 },
      { latDeg: lat[4000]!, lonDeg: lon[4000]! },
    ).distanceM;
    const grid = Math.round(atS[4000]! / truth.stepS);
    expect(far).toBeCloseTo(Math.hypot(truth.eastM[grid]!, truth.northM[grid]!), 3);
  });
});

describe('simulated chop', () => {
  it('is met at 1.30 Hz where 0.5 Hz waves are headed into at 5 m/s, and at 0.30 Hz when followed', () => {
    // computed: f + 2π f² v / g
    for (const [heading, wanted] of [
      [0, 1.3],
      [Math.PI, 0.3],
    ] as const) {
      const met = chopOf({ surge_mps2: 1, hz: 0.5, from_deg: 0 }, randomFrom(1, 'chop'));
      const surges = Array.from({ length: 60_000 }, (_, i) => {
        const atS = i / 100;
        return met(atS, 0, 5 * atS * Math.cos(heading), heading).surge;
      });
      const rises = surges.filter((value, i) => i > 0 && value >= 0 && surges[i - 1]! < 0).length;
      expect(rises / 600).toBeGreaterThan(wanted * 0.85);
      expect(rises / 600).toBeLessThan(wanted * 1.2);
      // eight waves beat with one another: over 600 s the rms is 1 to within a seventh
      expect(standardDeviation(surges)).toBeGreaterThan(0.86);
      expect(standardDeviation(surges)).toBeLessThan(1.14);
    }
  });
});

/** Length of a track when its steps are simply summed, m. */
const summedM = (columns: readonly Float64Array[]): number => {
  const [lat, lon] = columns as [Float64Array, Float64Array];
  let sum = 0;
  for (let i = 1; i < lat.length; i++) {
    const step = stepBetween(
      { latDeg: lat[i - 1]!, lonDeg: lon[i - 1]! },
      { latDeg: lat[i]!, lonDeg: lon[i]! },
    );
    sum += Math.hypot(step.eastM, step.northM);
  }
  return sum;
};
