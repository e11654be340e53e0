import { describe, expect, it } from 'vitest';
import type { Scenario } from '../../src/contract/scenario.js';
import { openOuting, strokesResultOf } from '../../src/outing/index.js';
import { simulate } from '../../src/simulate/index.js';
import { simulateTwin } from '../simulator/twin.js';

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

const HEADING_DEG = 40;
const STREAM_MPS = 0.55;

/** A start, and a change of pace at way, against a stream, with truth. */
const FORCES: Scenario = {
  craft: '4x',
  seed: 5,
  path: { kind: 'straight', heading_deg: HEADING_DEG },
  stream: { mps: STREAM_MPS, to_deg: HEADING_DEG + 180 },
  script: [
    { do: 'rest', time_s: 20 },
    { do: 'row', rate_spm: 20, time_s: 90, strength: 0.7 },
    { do: 'row', rate_spm: 28, time_s: 90 },
    { do: 'rest', time_s: 20 },
  ],
  sensors: {
    gnss: { hz: 10, speed: true, speed_sd_mps: 0.03 },
    imu: { hz: 100, clock: 'utc', placement: 'hull' },
  },
};
const TWIN = {
  seed: 5,
  craft: '4x',
  script: [{ restS: 20 }, { rowS: 90, rateSpm: 20 }, { rowS: 90, rateSpm: 28 }, { restS: 20 }],
  waters: { headingDeg: HEADING_DEG, streamMps: STREAM_MPS, streamToDeg: HEADING_DEG + 180 },
} as const;

describe.each(['forces', 'twin'])('figures within the stroke, simulator %s', (simulator) => {
  const { track, imu, truth } = simulator === 'forces' ? simulate(FORCES) : simulateTwin(TWIN);
  const open = (stream: boolean) =>
    openOuting([track!, imu!], {
      craft: '4x',
      placement: 'hull',
      ...(stream ? { stream: { speedMps: STREAM_MPS, toDeg: HEADING_DEG + 180 } } : {}),
    });
  const [water, ground] = [open(true), open(false)];

  /** The true speed variation through the water of a stroke, about its straight line. */
  const trueVariation = (fromS: number, toS: number): number => {
    const speeds = [...truth.waterSpeedMps.subarray(fromS / truth.stepS, toS / truth.stepS)];
    const own = mean(speeds);
    const change = speeds.at(-1)! - speeds[0]!;
    const left = speeds.map((mps, i) => mps - own - change * (i / (speeds.length - 1) - 0.5));
    return Math.sqrt(mean(left.map((mps) => mps * mps))) / own;
  };

  it('are through the water where the stream is known, as the truth is', () => {
    const known = water.strokes.strokes.filter(
      ({ speedVariation, rateSpm }) => speedVariation !== null && rateSpm !== null,
    );
    expect(known.length).toBeGreaterThan(50);
    const found = mean(known.map(({ speedVariation }) => speedVariation!));
    const wanted = mean(known.map(({ atS, rateSpm }) => trueVariation(atS, atS + 60 / rateSpm!)));
    expect(Math.abs(found / wanted - 1)).toBeLessThan(0.04);
    const overGround = ground.strokes.strokes.filter(({ speedVariation }) => speedVariation !== null);
    // Against the stream the boat is slower over ground, so the same swing is a larger share of it.
    expect(mean(overGround.map(({ speedVariation }) => speedVariation!))).toBeGreaterThan(1.08 * found);
  });

  it('keep distances over ground in the rows, and say what speeds are over', () => {
    const [inWater, onGround] = [water, ground].map((outing) => strokesResultOf(outing).strokes);
    const row = Math.floor(inWater!.length / 2);
    expect(inWater![row]!.speed_over).toBe('water');
    expect(onGround![row]!.speed_over).toBe('ground');
    expect(inWater![row]!.speed_mps! - onGround![row]!.speed_mps!).toBeCloseTo(STREAM_MPS, 1);
    expect(inWater![row]!.distance_m).toBe(onGround![row]!.distance_m);
  });

  it('leave a change of pace out: the mean of all strokes is near that of the steady ones', () => {
    const known = water.strokes.strokes.filter(({ extraDragPowerPct }) => extraDragPowerPct !== null);
    const steady = known.filter(({ atS }) => (atS > 50 && atS < 100) || (atS > 140 && atS < 190));
    const [all, own] = [known, steady].map((strokes) =>
      mean(strokes.map(({ extraDragPowerPct }) => extraDragPowerPct!)),
    );
    expect(Math.abs(all! - own!)).toBeLessThan(0.1 * own!);
    // The first stroke from rest has none.
    expect(water.strokes.strokes[0]!.extraDragPowerPct).toBeNull();
  });
});
