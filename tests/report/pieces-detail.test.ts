import { describe, expect, it } from 'vitest';
import type { OffCurveRow, OpeningRow } from '../../src/contract/piece-detail.js';
import type { PieceRow, PiecesResult } from '../../src/contract/pieces.js';
import { detailSections, detailView } from '../../src/report/pieces-detail.js';
import { tableText } from '../../src/report/table-text.js';

const READING = { speed: null, zone: 'UTC', plain: false, bold: false, width: 80 };

const off: OffCurveRow = {
  file: 'a-rather-long-name-of-a-log.gpx',
  piece: 12,
  side: 'below',
  from_stroke: 101,
  to_stroke: 102,
  from_along_m: 1010,
  to_along_m: 1028,
  start_at_s: 400,
  end_at_s: 404,
  rate_spm: 28,
  speed_mps: 4.5,
  speed_against_curve_pct: 90.1,
  level_against_curve_pct: 99.6,
  strokes: [101, 102].map((stroke) => ({
    stroke,
    at_s: 198 + 2 * stroke,
    stroke_rate_spm: 28,
    stroke_speed_mps: 4.5,
    stroke_against_curve_pct: 90,
  })),
};

const opening: OpeningRow = {
  file: 'b.gpx',
  piece: 1,
  start: 'standing',
  race_speed_mps: 5,
  time_to_100m_s: 21,
  time_to_100m_sd_s: 0.1,
  time_to_race_speed_s: null,
  strokes: [],
};

const piece = (file: string, pct: number | null): PieceRow =>
  ({ file, piece: 1, speed_against_curve_pct: pct }) as PieceRow;

const result: PiecesResult = {
  schema: 'thole/pieces/1',
  files: [],
  warnings: [],
  error_model: [],
  sheet: [],
  pieces: [piece(off.file, 98), piece('b.gpx', null)],
  rate_bands: [],
  openings: [opening],
  off_curve: [off],
};

const text = (of: PiecesResult, craft: 'K1' | null = null): string =>
  tableText(
    detailSections(of, () => craft, READING),
    READING,
  );

describe('the detail of pieces as tables', () => {
  it('lists the stretches where speed and rate part company, within 80 columns', () => {
    const lines = text(result).split('\n');
    for (const line of lines) expect([...line].length).toBeLessThanOrEqual(80);
    expect(lines.some((line) => / 12 +1010 +1028 +101-102 +28\.0 +1:51\.1 +90\.1 +99\.6$/.test(line))).toBe(
      true,
    );
  });

  it('tells nowhere from what cannot be told', () => {
    expect(text({ ...result, off_curve: [] })).toContain('Nowhere. ');
    const unknown = text({ ...result, off_curve: [], pieces: [piece('b.gpx', null)] });
    expect(unknown).toContain('Not known: no piece has');
    expect(unknown).not.toContain('Nowhere');
  });

  it('has the speed unit of the craft', () => {
    expect(text(result, 'K1')).toContain('Race speed (18.0 km/h, the mean of');
    expect(text(result)).toContain('Race speed (1:40.0 /500 m, the mean of');
  });
});

describe('the detail of pieces as rows', () => {
  it('is one line a stretch off the curve, and one for an opening without strokes', () => {
    const rows = detailView('off-curve').cells(result);
    expect(rows).toMatchObject([{ piece: 12, from_along_m: 1010, to_along_m: 1028, from_stroke: 101 }]);
    for (const row of rows) expect(Object.keys(row)).toEqual(detailView('off-curve').keys);
    expect(detailView('openings').cells(result)).toMatchObject([{ file: 'b.gpx', time_to_100m_s: 21 }]);
    expect(detailView('compared').cells(result)).toEqual([]);
  });
});
