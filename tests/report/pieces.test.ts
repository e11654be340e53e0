import { describe, expect, it } from 'vitest';
import { type PartRow, type PieceRow, piecesResult } from '../../src/contract/pieces.js';
import { piecesView } from '../../src/report/pieces.js';

const part = (number: number): PartRow => ({
  part: number,
  from_along_m: 0,
  to_along_m: 500,
  duration_s: 100 + number,
  duration_sd_s: 0.1,
  cumulative_s: 100 * number,
  bridged_s: 0,
  distance_m: 500,
  distance_sd_m: 0,
  stroke_count: 50,
  rate_spm: 30,
  speed_mps: 5,
  split_s_per_500m: 100,
  distance_per_stroke_m: 10,
  speed_against_curve_pct: null,
  target_pct: null,
  heart_rate_mean_bpm: null,
});

const piece = (parts: readonly PartRow[]): PieceRow => ({
  piece: 1,
  file: 'a.gpx',
  course_way: null,
  crew: null,
  start_time: null,
  end_time: null,
  start_at_s: 10,
  end_at_s: 210,
  start: 'standing',
  outcome: 'complete',
  duration_s: 203,
  duration_sd_s: 0.2,
  stopped_s: 0,
  slow_s: 0,
  uninterrupted_s: 203,
  bridged_s: 0,
  interruptions: [],
  distance_m: 1000,
  distance_sd_m: 0,
  stroke_count: 100,
  rate_spm: 30,
  speed_mps: 5,
  speed_sd_mps: 0.01,
  speed_over: 'ground',
  split_s_per_500m: 100,
  distance_per_stroke_m: 10,
  speed_variation: null,
  extra_drag_power_pct: null,
  speed_against_curve_pct: null,
  target_pct: null,
  heart_rate_mean_bpm: null,
  heart_rate_max_bpm: null,
  headwind_mps: null,
  crosswind_mps: null,
  heading_deg: null,
  parts: [...parts],
});

describe('pieces as rows', () => {
  const result = {
    schema: 'thole/pieces/1' as const,
    files: ['a.gpx'],
    warnings: [],
    error_model: [],
    sheet: [],
    pieces: [piece([part(1), part(2)])],
    rate_bands: [],
  };

  it('are one line a part, the piece repeated, and what both have told apart', () => {
    expect(piecesResult.safeParse(result).error).toBeUndefined();
    const rows = piecesView.cells(result);
    expect(rows).toHaveLength(2);
    expect(rows[1]).toMatchObject({
      piece: 1,
      part: 2,
      duration_s: 203,
      part_duration_s: 102,
      cumulative_s: 200,
      distance_m: 1000,
      part_distance_m: 500,
    });
    for (const row of rows) expect(Object.keys(row).sort()).toEqual([...piecesView.keys].sort());
  });

  it('keep a piece that could not be cut into parts', () => {
    const rows = piecesView.cells({ ...result, pieces: [piece([])] });
    expect(rows).toMatchObject([{ piece: 1, duration_s: 203 }]);
  });
});
