import { describe, expect, it } from 'vitest';
import type { Scenario, ScriptStep } from '../../src/contract/scenario.js';
import { type BoatTruth, simulate } from '../../src/simulate/index.js';

const rowed = (script: ScriptStep[], more: Partial<Scenario> = {}): BoatTruth =>
  simulate({ craft: '4x', seed: 3, script, sensors: { gnss: { hz: 1 } }, ...more }).truth;

const speedAt = (truth: BoatTruth, atS: number) => truth.speedMps[Math.round(atS / truth.stepS)]!;

const meanRate = (marks: readonly number[]) =>
  (60 * (marks.length - 1)) / (marks[marks.length - 1]! - marks[0]!);

describe('the script', () => {
  it('rows at the rate asked, stroke by stroke about it', () => {
    const { catchMarksS } = rowed([{ do: 'row', rate_spm: 24, strokes: 200 }]);
    expect(catchMarksS).toHaveLength(200);
    expect(meanRate(catchMarksS)).toBeGreaterThan(23.8);
    expect(meanRate(catchMarksS)).toBeLessThan(24.2);
    const rates = catchMarksS.slice(1).map((mark, i) => 60 / (mark - catchMarksS[i]!));
    const spread = Math.sqrt(rates.reduce((sum, rate) => sum + (rate - 24) ** 2, 0) / rates.length);
    expect(spread / 24).toBeGreaterThan(0.008);
    expect(spread / 24).toBeLessThan(0.025);
  });

  it('finishes the stroke in which the time or the distance is reached', () => {
    const { stretches, alongM, stepS } = rowed([
      { do: 'row', rate_spm: 20, time_s: 60 },
      { do: 'row', rate_spm: 30, distance_m: 500 },
      { do: 'rest', time_s: 10 },
    ]);
    expect(stretches.map(({ kind }) => kind)).toEqual(['rowing', 'rowing', 'rest']);
    expect(stretches[0]!.toS).toBeGreaterThanOrEqual(60);
    expect(stretches[0]!.toS).toBeLessThan(63.5);
    const rowedM =
      alongM[Math.round(stretches[1]!.toS / stepS)]! - alongM[Math.round(stretches[1]!.fromS / stepS)]!;
    expect(rowedM).toBeGreaterThanOrEqual(500);
    expect(rowedM).toBeLessThan(513);
  });

  it('starts from rest at a high rate and settles', () => {
    const { catchMarksS, stretches, ...truth } = rowed([
      { do: 'rest', time_s: 10 },
      { do: 'start', rate_spm: 34, distance_m: 500 },
    ]);
    expect(catchMarksS[0]).toBe(stretches[1]!.fromS);
    expect(truth.speedMps.subarray(0, 900).every((speed) => speed === 0)).toBe(true);
    expect(meanRate(catchMarksS.slice(4, 14))).toBeGreaterThan(38);
    expect(meanRate(catchMarksS.slice(25))).toBeGreaterThan(33.5);
    expect(meanRate(catchMarksS.slice(25))).toBeLessThan(34.5);
  });

  it('holds the pause and takes single strokes one at a time', () => {
    const { catchMarksS } = rowed([
      { do: 'pause', rate_spm: 20, strokes: 6, hold_s: 1 },
      { do: 'single', strokes: 4, every_s: 10 },
    ]);
    expect(meanRate(catchMarksS.slice(0, 6))).toBeCloseTo(60 / 4, 0);
    expect(catchMarksS[9]! - catchMarksS[8]!).toBeCloseTo(10, 0);
  });

  it('straightens lightly, forward and back', () => {
    const { waterSpeedMps, strokes, stretches, stepS } = rowed([
      { do: 'straighten', strokes: 3 },
      { do: 'rest', time_s: 25, blades: 'holding' },
      { do: 'straighten', strokes: 3, back: true },
    ]);
    expect(strokes.map(({ kind }) => kind)).toEqual([
      ...Array(3).fill('straightening'),
      ...Array(3).fill('backing'),
    ]);
    const slice = (index: number) =>
      waterSpeedMps.subarray(
        Math.round(stretches[index]!.fromS / stepS),
        Math.round(stretches[index]!.toS / stepS),
      );
    expect(Math.max(...slice(0))).toBeGreaterThan(0.8);
    expect(Math.max(...slice(0))).toBeLessThan(2.5);
    expect(Math.min(...slice(2))).toBeLessThan(-0.4);
  });

  it('stops gaining speed above the plateau of the crew', () => {
    const speed = (rate: number) => {
      const truth = rowed([{ do: 'row', rate_spm: rate, time_s: 150 }], { crew: { plateau_spm: 30 } });
      const half = truth.alongM.length >> 1;
      return (truth.alongM[2 * half - 2]! - truth.alongM[half]!) / ((half - 2) * truth.stepS);
    };
    expect(speed(36) / speed(30)).toBeGreaterThan(0.985);
    expect(speed(36) / speed(30)).toBeLessThan(1.015);
    expect(speed(30) / speed(24)).toBeGreaterThan(1.05);
  });

  it('ramps the rate evenly and fades the force', () => {
    const { catchMarksS } = rowed([
      { do: 'row', rate_spm: 20, to_rate_spm: 36, time_s: 120, strength: 1, to_strength: 0.9 },
    ]);
    expect(meanRate(catchMarksS.slice(0, 5))).toBeLessThan(22);
    expect(meanRate(catchMarksS.slice(-5))).toBeGreaterThan(34);
  });
});

describe('the course', () => {
  it('keeps to the line across a stream and is carried by it at rest', () => {
    const truth = rowed(
      [
        { do: 'row', rate_spm: 24, time_s: 200 },
        { do: 'rest', time_s: 60 },
      ],
      { path: { kind: 'straight', heading_deg: 0 }, stream: { mps: 0.6, to_deg: 90 } },
    );
    const at = (seconds: number) => Math.round(seconds / truth.stepS);
    expect(Math.abs(truth.eastM[at(200)]!)).toBeLessThan(3);
    expect(speedAt(truth, 255)).toBeCloseTo(0.6, 1);
    expect(truth.eastM[at(255)]! - truth.eastM[at(240)]!).toBeCloseTo(9, 0);
  });

  it('comes back on an out-and-back path', () => {
    const truth = rowed([{ do: 'row', rate_spm: 20, time_s: 500 }], {
      path: { kind: 'out_and_back', heading_deg: 90, leg_m: 800 },
    });
    expect(Math.max(...truth.eastM)).toBeGreaterThan(800);
    expect(Math.max(...truth.eastM)).toBeLessThan(900);
    expect(truth.eastM[truth.eastM.length - 1]!).toBeLessThan(100 + 2300 - 1600);
  });

  it('follows a bend to starboard', () => {
    const truth = rowed([{ do: 'row', rate_spm: 24, distance_m: 1200 }], {
      path: { kind: 'bend', heading_deg: 0, lead_m: 200, radius_m: 300, turn_deg: 90 },
    });
    const last = truth.eastM.length - 1;
    expect(truth.headingRad[last]!).toBeCloseTo(Math.PI / 2, 1);
    expect(Math.abs(truth.northM[last]! - 500)).toBeLessThan(6);
  });
});
