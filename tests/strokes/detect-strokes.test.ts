import { describe, expect, it } from 'vitest';
import { detectStrokes, type StrokeOptions, scoreStrokes, strokeRows } from '../../src/strokes/index.js';
import { simulateTwin } from '../simulator/twin.js';

const HULL: StrokeOptions = { craft: '2x', placement: 'hull', boat: null };

describe('strokes of a simulated outing', () => {
  const sim = simulateTwin({
    seed: 3,
    craft: '2x',
    script: [
      { restS: 20 },
      { rowS: 90, rateSpm: 20 },
      { restS: 20 },
      { rowS: 60, rateSpm: 32 },
      { restS: 20 },
    ],
    imu: { rateHz: 50, mount: 'random' },
    receiver: null,
  });
  const series = detectStrokes(sim.imu!, null, HULL);

  it('are found in calm water, in any mount', () => {
    const score = scoreStrokes(
      series.strokes.map((stroke) => stroke.atS),
      sim.truth.catchMarksS,
    );
    expect(series.source).toBe('imu');
    expect(score.f1).toBeGreaterThan(0.95);
    expect(Math.abs(score.biasS!)).toBeLessThan(0.05);
  });

  it('become rows, with what cannot be known left empty', () => {
    const rows = strokeRows(series, null, sim.imu!);
    expect(rows.length).toBe(series.strokes.length);
    expect(rows[0]!.stroke).toBe(1);
    expect(rows[0]!.speed_mps).toBeNull();
    expect(rows[5]!.rate_spm).toBeGreaterThan(15);
    expect(rows[rows.length - 1]!.rate_spm).toBeNull();
    expect(series.warnings.map((warning) => warning.code)).toContain('no-speed-within-stroke');
  });
});
