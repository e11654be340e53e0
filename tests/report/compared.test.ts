import { describe, expect, it } from 'vitest';
import type { ComparedRow } from '../../src/contract/piece-detail.js';
import type { PiecesResult } from '../../src/contract/pieces.js';
import { comparedSections } from '../../src/report/compared.js';
import { tableText } from '../../src/report/table-text.js';

const READING = { speed: null, zone: 'UTC', plain: false, bold: false, width: 80 };

const row = (more: Partial<ComparedRow>): ComparedRow => ({
  file: 'now.gpx',
  piece: 1,
  with_file: 'then.gpx',
  with_piece: 2,
  distance_m: 600,
  with_distance_m: 590,
  duration_s: 120,
  with_duration_s: 120,
  rate_spm: 28,
  with_rate_spm: 28,
  speed_mps: 5,
  with_speed_mps: 4.95,
  difference_pct: 1.01,
  difference_sd_pct: 0.12,
  by_rate_pct: 0,
  rate_apart_spm: 0,
  direction_apart_deg: 3,
  headwind_mps: null,
  with_headwind_mps: null,
  verdict: 'faster',
  wind: null,
  with_wind: null,
  stream: null,
  with_stream: null,
  ...more,
});

const told = (compared: readonly ComparedRow[], more: Partial<PiecesResult> = {}): string => {
  const result: PiecesResult = {
    schema: 'thole/pieces/1',
    files: [],
    warnings: [],
    error_model: [],
    sheet: [],
    pieces: [],
    rate_bands: [],
    compared: [...compared],
    compared_mean: null,
    ...more,
  };
  return tableText(comparedSections(result, null, READING), READING);
};

describe('pieces beside those of another day', () => {
  it('tell the conditions of both days, from the sheets', () => {
    const sheetRow = {
      ...{ crew: null, craft: null, seats: null, placement: null },
      ...{ wind_mps: null, wind_from_deg: null, stream: null, notes: null },
    };
    const text = told([row({})], {
      sheet: [
        { ...sheetRow, file: 'now.gpx', wind: 'light tail', notes: 'cold water' },
        { ...sheetRow, file: 'then.gpx', wind: 'calm', stream: '0.2@140' },
      ],
    });
    expect(text).toContain('Now, now.gpx: wind light tail; stream not given; cold water.');
    expect(text).toContain('Then, then.gpx: wind calm; stream 0.2@140.');
  });

  it('tell the difference, or that none is shown and from how much on one would be', () => {
    const text = told([
      row({}),
      row({ piece: 2, difference_pct: -0.1, difference_sd_pct: 0.2, verdict: 'no_difference_shown' }),
      row({ piece: 3, difference_pct: 0.25, difference_sd_pct: 0.1, verdict: 'too_small_to_matter' }),
      row({ piece: 4, difference_pct: null, difference_sd_pct: null, verdict: null }),
    ]);
    expect(text).toMatch(/1 +2 .* \+1\.01 +0\.12 +faster/);
    expect(text).toMatch(/2 +2 .* -0\.10 +0\.20 +no difference shown/);
    expect(text).toMatch(/3 +2 .* \+0\.25 +0\.10 +too small to matter/);
    expect(text).toMatch(/4 +2 .* – +– +–/);
    expect(text.replaceAll('\n', ' ')).toContain('from 0.3 %, the smallest change that matters');
    expect(text.replaceAll('\n', ' ')).toContain('show a difference from 0.4 % on');
    expect(text).not.toContain('by rate');
  });

  it('say in what they are alike, and how much a crew is taken to vary', () => {
    const text = told([row({}), row({ piece: 2, rate_apart_spm: null, rate_spm: null })], {
      compared_variation: { variation_pct: 1, variation_by: 'published' },
      pieces: [{ file: 'now.gpx', piece: 3, start_time: null } as PiecesResult['pieces'][number]],
    }).replaceAll('\n', ' ');
    expect(text).toContain('Piece 1: paired by start, length, rate, direction.');
    expect(text).toContain('Piece 2: paired by start, length, direction.');
    expect(text).toContain('Without one like it on the other day: 3.');
    expect(text).toContain('varies from day to day (1.0 %, as published');
  });

  it('tell the wind along each where both days or one have it', () => {
    const text = told([row({ headwind_mps: 3.2, with_headwind_mps: -1.5 })]);
    expect(text).toMatch(/head 3\.2/);
    expect(text).toMatch(/tail 1\.5/);
    expect(told([row({})])).not.toContain('wind m/s');
  });

  it('tell what the rates alone make where they differ', () => {
    const text = told([row({ rate_spm: 29, by_rate_pct: 1.18 })]);
    expect(text).toMatch(/by rate/);
    expect(text).toMatch(/\+1\.2/);
  });

  it('keep within 80 columns, name the logs where there are several, and say where nothing is alike', () => {
    const text = told([row({ file: 'a-long-name-of-a-log.gpx', by_rate_pct: 1 }), row({ file: 'b.gpx' })]);
    expect(text).toContain('b.gpx');
    for (const line of text.split('\n')) expect([...line].length).toBeLessThanOrEqual(80);
    expect(told([])).toContain('No piece of the other day is like these');
    expect(comparedSections({ pieces: [] } as unknown as PiecesResult, null, READING)).toEqual([]);
  });
});
