import { describe, expect, it } from 'vitest';
import { alignClocks, isFitting } from '../../src/outing/align-clocks.js';
import { simulate } from '../../src/simulate/index.js';
import type { Simulated } from '../../src/simulate/simulated.js';
import { simulateTwin } from '../simulator/twin.js';

const SEEDS = [1, 2, 3, 4];
const FOUR = [
  [60, 300, 20],
  [45, 240, 24],
  [80, 400, 22],
  [60, 200, 28],
] as const;

/** Four starts and stops, an IMU log of 100 Hz without a clock, begun late, its clock 200 ppm fast. */
const fourStarts: Readonly<Record<string, (seed: number, hz?: number) => Simulated>> = {
  dynamic: (seed, hz = 10) =>
    simulate({
      craft: '4x',
      seed,
      script: [
        ...FOUR.flatMap(([restS, rowS, rate]) => [
          { do: 'rest' as const, time_s: restS },
          { do: 'row' as const, rate_spm: rate, time_s: rowS },
        ]),
        { do: 'rest', time_s: 60 },
      ],
      chop: { surge_mps2: 0.3 },
      sensors: {
        gnss: { hz, speed: hz > 1 },
        imu: { hz: 100, start_s: 37, drift_ppm: 200, mount: { yaw_deg: 70, roll_deg: 160 } },
      },
    }),
  kinematic: (seed, hz = 10) =>
    simulateTwin({
      seed,
      craft: '2x',
      script: [...FOUR.flatMap(([restS, rowS, rateSpm]) => [{ restS }, { rowS, rateSpm }]), { restS: 60 }],
      chop: { surgeMps2: 0.3 },
      receiver: { rateHz: hz },
      imuClock: false,
      imu: { mount: 'random', startS: 37, driftPpm: 200 },
    }),
};

describe.each(Object.keys(fourStarts))('clocks aligned by movement, %s simulation', (which) => {
  it('lie within 0.15 s and drift within 15 ppm, with their sd', () => {
    for (const seed of SEEDS) {
      const { track, imu, truth } = fourStarts[which]!(seed);
      const found = alignClocks(track!, imu!);
      if (found.kind === 'refused') throw new Error(`refused: ${found.why}`);
      expect(Math.abs(found.clock.offsetS - truth.imuStartS)).toBeLessThan(0.05);
      expect(Math.abs(found.clock.offsetS - truth.imuStartS)).toBeLessThan(3 * found.offsetSdS);
      expect(Math.abs(found.clock.driftPpm - truth.imuDriftPpm)).toBeLessThan(15);
      expect(Math.abs(found.clock.driftPpm - truth.imuDriftPpm)).toBeLessThan(4 * found.driftSdPpm);
      expect(found.ambiguity).toBeLessThan(0.6);
    }
  });

  it('lie within a second where a track of 1 Hz shows only starts and stops, and the sd says so', () => {
    const { track, imu, truth } = fourStarts[which]!(1, 1);
    const found = alignClocks(track!, imu!);
    if (found.kind === 'refused') throw new Error(`refused: ${found.why}`);
    expect(Math.abs(found.clock.offsetS - truth.imuStartS)).toBeLessThan(1);
    expect(found.offsetSdS).toBeGreaterThan(0.05);
    expect(found.driftSdPpm).toBeGreaterThan(50);
  });
});

describe('clocks that movement cannot align', () => {
  it('are those of an hour of steady rowing', () => {
    const { track, imu } = simulateTwin({
      seed: 2,
      script: [{ restS: 30 }, { rowS: 3600, rateSpm: 20 }, { restS: 30 }],
      imuClock: false,
    });
    expect(alignClocks(track!, imu!)).toMatchObject({
      kind: 'refused',
      why: expect.stringMatching(/steady rowing/),
    });
    const inner = simulate({
      craft: '4x',
      seed: 2,
      script: [{ do: 'row', rate_spm: 20, time_s: 1800 }],
      sensors: { gnss: { hz: 10, speed: true }, imu: { hz: 50, start_s: 120 } },
    });
    expect(alignClocks(inner.track!, inner.imu!).kind).toBe('refused');
  });

  it('are those of two boats', () => {
    const here = fourStarts.kinematic!(1);
    const there = simulateTwin({
      seed: 9,
      script: [
        ...[200, 500, 100, 100].flatMap((rowS, i) => [{ restS: 40 + 17 * i }, { rowS, rateSpm: 22 + 2 * i }]),
        { restS: 60 },
      ],
      imuClock: false,
    });
    expect(alignClocks(here.track!, there.imu!)).toMatchObject({
      kind: 'refused',
      why: expect.stringMatching(/does not fit/),
    });
  });

  it('are those of the same piece again and again, where strokes do not show', () => {
    const { track, imu } = simulateTwin({
      seed: 3,
      script: [
        ...Array.from({ length: 12 }, () => [{ restS: 40 }, { rowS: 80, rateSpm: 24 }]).flat(),
        { restS: 40 },
      ],
      receiver: { rateHz: 1 },
      imuClock: false,
    });
    expect(alignClocks(track!, imu!)).toMatchObject({
      kind: 'refused',
      why: expect.stringMatching(/more than one place/),
    });
  });

  it('are those of a log without accelerations', () => {
    const { track } = fourStarts.kinematic!(1);
    expect(alignClocks(track!, track!).kind).toBe('refused');
  });
});

describe('a glance at where clocks are said to lie', () => {
  const { track, imu } = simulateTwin({
    seed: 5,
    craft: '2x',
    script: [...FOUR.flatMap(([restS, rowS, rateSpm]) => [{ restS }, { rowS, rateSpm }]), { restS: 60 }],
    imu: { startS: 37 },
  });

  it('believes the true place, and none that the whole search finds to be wrong', () => {
    const found = alignClocks(track!, imu!);
    if (found.kind === 'refused') throw new Error(`refused: ${found.why}`);
    expect(isFitting(track!, imu!, 37)).toBe(true);
    for (const offS of [-200, -12, -3, -1, -0.5, 0.5, 1, 2.5, 3, 60]) {
      expect(Math.abs(found.clock.offsetS - (37 + offS))).toBeGreaterThan(0.4);
      expect(isFitting(track!, imu!, 37 + offS)).toBe(false);
    }
  });

  it('does not believe a clock that drifts by a quarter of a second over the outing', () => {
    const drifting = fourStarts.kinematic!(1);
    expect(200e-6 * drifting.track!.durationS).toBeGreaterThan(0.25);
    expect(isFitting(drifting.track!, drifting.imu!, drifting.truth.imuStartS)).toBe(false);
  });

  it('leaves a track of 1 Hz and one without starts to the whole search', () => {
    const slow = fourStarts.kinematic!(1, 1);
    expect(isFitting(slow.track!, slow.imu!, slow.truth.imuStartS)).toBe(false);
    const steady = simulateTwin({ seed: 2, script: [{ rowS: 600, rateSpm: 20 }] });
    expect(isFitting(steady.track!, steady.imu!, 0)).toBe(false);
  });
});
