import { describe, expect, it } from 'vitest';
import { BACK, type Wear, WRIST } from './imu.js';
import { zeroPhaseLowPass } from './low-pass.js';
import { simulateTwin, USUAL_RECEIVER } from './twin.js';

const sdOf = (values: readonly number[]): number => {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length);
};

const session = simulateTwin({
  seed: 1,
  craft: '4-',
  script: [
    { restS: 60 },
    { rowS: 300, rateSpm: 20 },
    { restS: 60, turnDeg: 180 },
    { rowS: 120, rateSpm: 34, startSpm: 42 },
    { restS: 60, moored: true },
  ],
  waters: { streamMps: 0.4, streamToDeg: 90 },
});

describe('the second simulator', () => {
  it('tells a truth that agrees with itself', () => {
    const { alongM, speedMps, waterSpeedMps, surgeMps2, stepS } = session.truth;
    let [along, speed, worstAlong, worstSpeed] = [0, 0, 0, 0];
    for (let i = 1; i < alongM.length; i++) {
      along += ((speedMps[i - 1]! + speedMps[i]!) / 2) * stepS;
      speed += ((surgeMps2[i - 1]! + surgeMps2[i]!) / 2) * stepS;
      worstAlong = Math.max(worstAlong, Math.abs(along - alongM[i]!));
      worstSpeed = Math.max(worstSpeed, Math.abs(speed - waterSpeedMps[i]!));
    }
    expect(worstAlong).toBeLessThan(1e-6);
    expect(worstSpeed).toBeLessThan(0.05);
  });

  it('rows at the rates and near the speeds asked', () => {
    const { catchMarksS, alongM, stepS, stretches } = session.truth;
    for (const stretch of stretches.filter(({ kind }) => kind === 'rowing')) {
      const marks = catchMarksS.filter((at) => at > stretch.fromS + 25 && at < stretch.toS);
      const rate = (60 * (marks.length - 1)) / (marks.at(-1)! - marks[0]!);
      expect(Math.abs(rate / stretch.rateSpm! - 1)).toBeLessThan(0.02);
      const metres = alongM[Math.round(marks.at(-1)! / stepS)]! - alongM[Math.round(marks[0]! / stepS)]!;
      expect(metres / (marks.at(-1)! - marks[0]!)).toBeGreaterThan(3.5);
      expect(metres / (marks.at(-1)! - marks[0]!)).toBeLessThan(6.5);
    }
  });

  it('marks minima of the surge after a 5 Hz low-pass, and first surges from rest', () => {
    const smooth = zeroPhaseLowPass(session.truth.surgeMps2, session.truth.stepS, 5);
    const marks = session.truth.catchMarksS;
    let fromRest = 0;
    marks.forEach((at, k) => {
      if (k === 0 || at - marks[k - 1]! > 20) {
        fromRest++;
        return;
      }
      const i = Math.round(at / session.truth.stepS);
      for (let off = 1; off <= 15; off++) {
        expect(smooth[i]!).toBeLessThanOrEqual(smooth[i - off]! + 0.05);
        expect(smooth[i]!).toBeLessThanOrEqual(smooth[i + off]! + 0.05);
      }
    });
    expect(fromRest).toBe(2);
  });

  it('adds position noise of the sd that is stated', () => {
    const errors: number[] = [];
    for (let seed = 1; seed <= 60; seed++) {
      const { track, latDeg } = simulateTwin({
        seed,
        imu: null,
        script: [{ restS: 200, moored: true }],
        receiver: { rateHz: 1 },
      });
      const lat = track!.channels.position!.columns[0]!;
      for (const i of [0, 100, 199]) errors.push((lat[i]! - latDeg[i * 100]!) * 111_200);
    }
    const stated = Math.hypot(USUAL_RECEIVER.whiteSdM, USUAL_RECEIVER.wanderSdM);
    expect(sdOf(errors) / stated).toBeGreaterThan(0.85);
    expect(sdOf(errors) / stated).toBeLessThan(1.15);
  });

  it('adds speed noise of the sd that is stated', () => {
    const { track, truth } = session;
    const { atS, columns } = track!.channels.speed!;
    const errors = Array.from(
      atS,
      (at, i) => columns[0]![i]! - truth.speedMps[Math.round(at / truth.stepS)]!,
    );
    expect(sdOf(errors)).toBeGreaterThan(0.045);
    expect(sdOf(errors)).toBeLessThan(0.055);
  });

  it('makes chop of the rms that is asked, whatever the mount', () => {
    const ask = { script: [{ restS: 600, moored: true }], receiver: null } as const;
    const measured = [0.25, 0.8].map((surgeMps2) => {
      const { imu } = simulateTwin({ ...ask, seed: 3, chop: { surgeMps2 }, imu: { noiseSdMps2: 0 } });
      return sdOf([...imu!.channels.acceleration!.columns[0]!]) / surgeMps2;
    });
    for (const ratio of measured) expect(Math.abs(ratio - 1)).toBeLessThan(0.2);
    const turned = simulateTwin({ ...ask, seed: 3, chop: {}, imu: { mount: 'random', biasSdMps2: 0 } });
    const [x, y, z] = turned.imu!.channels.acceleration!.columns;
    expect(Math.hypot(x![100]!, y![100]!, z![100]!)).toBeCloseTo(9.8, 0);
  });

  it('rows drills: half slide, single strokes, and backing that is marked apart', () => {
    const drilled = simulateTwin({
      seed: 8,
      receiver: null,
      script: [
        { restS: 30 },
        { rowS: 60, rateSpm: 24, drill: 'half' },
        { rowS: 60, rateSpm: 8, drill: 'single' },
        { restS: 40 },
        { rowS: 20, rateSpm: 20, drill: 'back' },
        { restS: 10 },
      ],
    });
    const within = (fromS: number, toS: number) =>
      drilled.truth.catchMarksS.filter((at) => at > fromS && at <= toS).length;
    expect(within(30, 90)).toBeGreaterThan(20);
    expect(within(90, 150)).toBeLessThan(10);
    expect(within(150, 220)).toBe(0);
    expect(drilled.backMarksS.length).toBeGreaterThan(4);
    expect(Math.min(...drilled.truth.waterSpeedMps)).toBeLessThan(-0.5);
  });

  it('makes wash of the size that is asked, where it is asked', () => {
    const { imu } = simulateTwin({
      seed: 4,
      receiver: null,
      script: [{ restS: 120, moored: true }],
      chop: { wash: [{ atS: 60, lengthS: 30, surgeMps2: 0.9, hz: 0.7 }] },
      imu: { noiseSdMps2: 0, biasSdMps2: 0, warmingSdMps2: 0, leverM: 0 },
    });
    const surge = [...imu!.channels.acceleration!.columns[0]!];
    expect(Math.max(...surge.slice(6000, 9000))).toBeCloseTo(0.9, 1);
    expect(Math.max(...surge.slice(0, 5900).map(Math.abs))).toBeLessThan(0.02);
  });

  it('moves a worn logger far more than the hull', () => {
    const ask = { seed: 5, receiver: null, script: [{ restS: 20 }, { rowS: 60, rateSpm: 24 }] } as const;
    const spread = (wear: Wear | null) => {
      const { imu } = simulateTwin({ ...ask, imu: { wear } });
      return Math.hypot(
        ...imu!.channels.acceleration!.columns.map((column) => sdOf([...column.subarray(3000, 8000)])),
      );
    };
    expect(spread(WRIST) / spread(null)).toBeGreaterThan(2);
    expect(spread(BACK) / spread(null)).toBeGreaterThan(1.5);
  });

  it('gives the same outing for the same seed and another for another', () => {
    const make = (seed: number) =>
      simulateTwin({ seed, script: [{ restS: 5 }, { rowS: 30, rateSpm: 30 }] }).track!.channels.position!
        .columns[0]!;
    expect(make(5)).toEqual(make(5));
    expect(make(5)).not.toEqual(make(6));
  });
});
