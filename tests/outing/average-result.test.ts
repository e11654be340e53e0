import { describe, expect, it } from 'vitest';
import type { AverageBand } from '../../src/contract/average.js';
import { averageResult } from '../../src/contract/average.js';
import { settle } from '../../src/contract/decimals.js';
import { averageResultOf } from '../../src/outing/index.js';
import { openOuting } from '../../src/outing/open-outing.js';
import { butterworth, zeroPhase } from '../../src/signal/index.js';
import type { Truth } from '../../src/simulate/index.js';
import type { Craft } from '../../src/units/craft.js';
import { hullOuting, SIMULATORS, simulatedHull } from './simulated-hull.js';

const MOUNT = { yawDeg: 130, pitchDeg: 20, rollDeg: -35 };
const legsAt = (rateSpm: number) => [{ restS: 25 }, { rowS: 90, rateSpm }, { restS: 15 }];

/** A true column over the cycle, averaged over all strokes but the first two and the last two. */
const trueCycle = (values: Float64Array, { catchMarksS: marks, stepS }: Truth, points: number): number[] => {
  const at = (place: number) => {
    const low = Math.floor(place);
    return values[low]! + (place - low) * (values[low + 1]! - values[low]!);
  };
  const used = marks.slice(2, -2);
  return Array.from({ length: points }, (_, k) => {
    const sum = used.reduce((all, markS, i) => {
      const lengthS = marks[i + 3]! - markS;
      return all + at((markS + (lengthS * k) / (points - 1)) / stepS);
    }, 0);
    return sum / used.length;
  });
};

const rms = (values: readonly number[]): number =>
  Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);

const accelerations = (band: AverageBand) => band.cycle.map((point) => point.acceleration_mps2);
const speeds = (band: AverageBand) => band.cycle.map((point) => point.hull_speed_mps!);
const apart = (p: readonly number[], q: readonly number[]) => rms(p.map((value, k) => value - q[k]!));

/** The average stroke, and the truth it is to show: surge low-passed at 5 Hz as the contract says, and hull speed. */
const measured = (ask: Parameters<typeof simulatedHull>[0]) => {
  const made = simulatedHull(ask);
  const result = averageResultOf(hullOuting(made, ask.craft), [5]);
  const band = result.bands[0]!;
  const { truth } = made;
  const low = zeroPhase(truth.surgeMps2, butterworth(2, 5 / (0.5 / truth.stepS)));
  return {
    result,
    band,
    surge: trueCycle(low, truth, band.cycle.length),
    speed: trueCycle(truth.speedMps, truth, band.cycle.length),
  };
};

describe.each(SIMULATORS)('the average stroke of simulator %s', (simulator) => {
  const asks: readonly (readonly [Craft, number])[] = [
    ['2x', 18],
    ['8+', 36],
    ['OC6', 60],
  ];
  it.each(asks)('is the true one: %s at %i spm', (craft, rateSpm) => {
    const { band, surge, speed } = measured({ simulator, craft, legs: legsAt(rateSpm), mount: MOUNT });
    expect(band.rate_spm).toBeCloseTo(rateSpm, -0.5);
    // measured: 1 to 6 % in rowing, 13 % in the canoe, whose strokes differ more
    expect(apart(accelerations(band), surge) / rms(surge)).toBeLessThan(craft === 'OC6' ? 0.16 : 0.08);
    const swing = Math.max(...speed) - Math.min(...speed);
    expect(apart(speeds(band), speed) / swing).toBeLessThan(craft === 'OC6' ? 0.12 : 0.07);
  });

  it('stands out of chop as far as the number of strokes lets it', () => {
    const { band, surge } = measured({
      simulator,
      craft: '2x',
      legs: legsAt(32),
      chopMps2: 0.5,
      mount: MOUNT,
    });
    const chance = 0.5 / Math.sqrt(band.stroke_count);
    expect(apart(accelerations(band), surge)).toBeLessThan(0.05 * rms(surge) + 2 * chance);
    // what the waves do to single strokes shows in the spread
    expect(band.cycle[25]!.acceleration_sd_mps2).toBeGreaterThan(0.3);
  });

  it('has a hull speed whose mean over the cycle is the mean of the track', () => {
    const { band } = measured({ simulator, craft: '2x', legs: legsAt(24) });
    const inside = speeds(band).slice(0, -1);
    const mean = inside.reduce((sum, value) => sum + value, 0) / inside.length;
    expect(mean / band.speed_mps!).toBeCloseTo(1, 2);
  });

  it('is the same however the logger is mounted', () => {
    const ask = { simulator, craft: '2x', legs: legsAt(26) } as const;
    const [level, turned] = [measured(ask), measured({ ...ask, mount: MOUNT })];
    expect(apart(accelerations(level.band), accelerations(turned.band))).toBeLessThan(0.1);
  });
});

describe('the average stroke', () => {
  const legs = [
    { restS: 20 },
    { rowS: 60, rateSpm: 18 },
    { restS: 15 },
    { rowS: 60, rateSpm: 30 },
    { restS: 15 },
  ];
  const made = simulatedHull({ simulator: 'twin', craft: '2x', legs });

  it('is told by rate band, low to high, in the shape of the contract', () => {
    const result = averageResultOf(hullOuting(made, '2x'), [20, 28]);
    expect(averageResult.parse(settle(result))).toBeDefined();
    expect(result.bands.map(({ from_spm, to_spm }) => [from_spm, to_spm])).toEqual([
      [null, 20],
      [28, null],
    ]);
    for (const band of result.bands) {
      expect(band.cycle.map(({ phase_pct }) => phase_pct)).toEqual(
        Array.from({ length: 51 }, (_, k) => 2 * k),
      );
      expect(band.stroke_count).toBeGreaterThan(10);
    }
  });

  it('has a surge without a track, and no speed', () => {
    const outing = openOuting([made.imu], { craft: '2x', placement: 'hull' });
    const [band] = averageResultOf(outing, [5]).bands;
    expect(band!.speed_mps).toBeNull();
    expect(band!.cycle[10]).toMatchObject({ hull_speed_mps: null, hull_speed_sd_mps: null });
    expect(band!.cycle[0]!.acceleration_mps2).toBeLessThan(-1);
  });

  it('is not made of a track alone, nor of a logger on a body, and says why', () => {
    const byTrack = averageResultOf(openOuting([made.track], { craft: '2x' }));
    expect(byTrack.bands).toEqual([]);
    expect(byTrack.warnings.find(({ code }) => code === 'no-average')!.message).toMatch(/accelerometer log/);
    const onBody = averageResultOf(openOuting([made.track, made.imu], { craft: '2x', placement: 'body' }));
    expect(onBody.bands).toEqual([]);
    expect(onBody.warnings.find(({ code }) => code === 'no-average')!.message).toMatch(/--placement hull/);
  });

  it('takes rising bounds only', () => {
    expect(() => averageResultOf(hullOuting(made, '2x'), [28, 20])).toThrow(/rising bounds/);
  });
});
