import { describe, expect, it } from 'vitest';
import type { PieceRow, PiecesResult } from '../../src/contract/pieces.js';
import type { SheetRow } from '../../src/contract/sheet.js';
import { comparedPieces } from '../../src/pieces/index.js';

const piece = (number: number, more: Partial<PieceRow> = {}): PieceRow =>
  ({
    piece: number,
    file: 'now.gpx',
    start: 'standing',
    start_time: null,
    duration_s: 120,
    distance_m: 600,
    rate_spm: 28,
    speed_mps: 5,
    speed_sd_mps: 0.005,
    speed_over: 'ground',
    heading_deg: 90,
    headwind_mps: null,
    crosswind_mps: null,
    parts: [],
    ...more,
  }) as unknown as PieceRow;

const sheetRow = (more: Partial<SheetRow>): SheetRow => ({
  file: 'now.gpx',
  crew: null,
  craft: null,
  seats: null,
  placement: null,
  wind: null,
  wind_mps: null,
  wind_from_deg: null,
  stream: null,
  notes: null,
  ...more,
});

const resultOf = (
  file: string,
  pieces: readonly PieceRow[],
  sheet: Partial<SheetRow> | null = null,
): PiecesResult => ({
  schema: 'thole/pieces/1',
  files: [file],
  warnings: [],
  error_model: [],
  sheet: sheet === null ? [] : [sheetRow({ ...sheet, file })],
  pieces: pieces.map((row) => ({ ...row, file })),
  rate_bands: [],
});

const compared = (now: readonly PieceRow[], then: readonly PieceRow[], variationPct: number | null = 0) =>
  comparedPieces(resultOf('now.gpx', now), resultOf('then.gpx', then), variationPct);

const pairs = (now: readonly PieceRow[], then: readonly PieceRow[]) =>
  compared(now, then).compared!.map(({ piece: own, with_piece }) => [own, with_piece]);

describe('pieces of two days', () => {
  it('are matched by start, length in time or metres, and rate', () => {
    const one = piece(1);
    expect(pairs([one], [piece(1)])).toEqual([[1, 1]]);
    expect(pairs([one], [piece(1, { duration_s: 130 })])).toEqual([[1, 1]]);
    expect(pairs([one], [piece(1, { distance_m: 640 })])).toEqual([[1, 1]]);
    expect(pairs([one], [piece(1, { duration_s: 130, distance_m: 640 })])).toEqual([]);
    expect(pairs([one], [piece(1, { rate_spm: 29.4 })])).toEqual([[1, 1]]);
    expect(pairs([one], [piece(1, { rate_spm: 29.6 })])).toEqual([]);
    expect(pairs([one], [piece(1, { start: 'rolling' })])).toEqual([]);
  });

  it('that are alike go in the order of the day, and each counts once', () => {
    const then = [1, 2, 3].map((number) => piece(number, { rate_spm: 28.2 - 0.1 * number }));
    expect(pairs([piece(1), piece(2), piece(3), piece(4)], then)).toEqual([
      [1, 1],
      [2, 2],
      [3, 3],
    ]);
  });

  it('that are different find their like in any order', () => {
    const long = { duration_s: 240, distance_m: 1150, rate_spm: 24 };
    expect(pairs([piece(1), piece(2, long)], [piece(1, long), piece(2)])).toEqual([
      [1, 2],
      [2, 1],
    ]);
  });

  it('go with one in the same direction and with no other', () => {
    const then = [piece(1, { heading_deg: 270 }), piece(2, { heading_deg: 92 })];
    expect(pairs([piece(1)], then)).toEqual([[1, 2]]);
    expect(pairs([piece(1)], [then[0]!])).toEqual([]);
    const [row] = compared([piece(1, { heading_deg: 350 })], [piece(1, { heading_deg: 20 })]).compared!;
    expect(row!.direction_apart_deg).toBeCloseTo(30, 9);
  });

  it('are not paired by rate where one is not known, and it is said', () => {
    const { compared: rows, warnings } = compared([piece(1, { rate_spm: null })], [piece(1)]);
    expect(rows).toMatchObject([{ piece: 1, with_piece: 1, rate_apart_spm: null }]);
    expect(warnings).toMatchObject([
      {
        code: 'rates-unknown',
        message: expect.stringMatching(/^The rate of piece 1 is not known on both days/),
      },
    ]);
    expect(compared([piece(1)], [piece(1)]).warnings).toEqual([]);
  });
});

describe('how much a crew varies from day to day', () => {
  const faster = (...speeds: number[]) => speeds.map((speed_mps, i) => piece(i + 1, { speed_mps }));
  const then = [1, 2, 3, 4].map((number) => piece(number));

  it('is in the ± of each difference: as told, else the published 1 %', () => {
    // 1 % from race to race within a boat: Smith & Hopkins, MSSE 2011, 43:2155-60
    const { compared: rows, compared_variation } = compared(faster(5.05), then, null);
    expect(compared_variation).toEqual({ variation_pct: 1, variation_by: 'published' });
    expect(rows![0]!.difference_sd_pct).toBeCloseTo(Math.hypot(Math.SQRT2, 0.1 * Math.SQRT2), 2);
    expect(rows![0]!.verdict).toBe('no_difference_shown');
    const told = compared(faster(5.05), then, 0.2);
    expect(told.compared_variation).toEqual({ variation_pct: 0.2, variation_by: 'given' });
    expect(told.compared![0]!.verdict).toBe('faster');
  });

  it('is more where the pieces show more, and does not shrink with their number', () => {
    const shown = compared(faster(5, 5.25, 4.75, 5.2), then, null);
    expect(shown.compared_variation!.variation_by).toBe('pieces');
    expect(shown.compared_variation!.variation_pct).toBeGreaterThan(2);
    const even = compared(faster(5.1, 5.1, 5.1, 5.1), then, null);
    expect(even.compared_mean!.difference_sd_pct).toBeGreaterThan(Math.SQRT2);
    expect(even.compared_mean!.verdict).toBe('no_difference_shown');
    expect(compared(faster(5.2, 5.2, 5.2, 5.2), then, null).compared_mean!.verdict).toBe('faster');
  });
});

describe('a difference between two days', () => {
  const told = (speed_mps: number | null, speed_sd_mps: number | null = 0.005) =>
    compared([piece(1, { speed_mps, speed_sd_mps })], [piece(1)]).compared![0]!;

  it('is of speed in percent, with the sd of both logs', () => {
    // 5.05 against 5: 1 %; sds of 0.1 % each: 0.1 √2 of it
    expect(told(5.05).difference_pct).toBeCloseTo(1, 9);
    expect(told(5.05, 0.00505).difference_sd_pct).toBeCloseTo(1.01 * 0.1 * Math.SQRT2, 9);
  });

  it('is told beyond two sd only, and matters from 0.3 % on', () => {
    expect(told(5.05).verdict).toBe('faster');
    expect(told(4.95).verdict).toBe('slower');
    expect(told(5.012).verdict).toBe('no_difference_shown');
    expect(told(5.012, 0.05).verdict).toBe('no_difference_shown');
    const sure = compared(
      [piece(1, { speed_mps: 5.012, speed_sd_mps: 0.001 })],
      [piece(1, { speed_sd_mps: 0.001 })],
    ).compared![0]!;
    expect(sure.verdict).toBe('too_small_to_matter');
  });

  it('is not told where speed or its sd is not known, or is of two kinds', () => {
    expect(told(null)).toMatchObject({ difference_pct: null, verdict: null });
    expect(told(5.05, null)).toMatchObject({ difference_sd_pct: null, verdict: null });
    const mixed = compared([piece(1, { speed_over: 'water', speed_mps: 6 })], [piece(1)]);
    expect(mixed.compared![0]).toMatchObject({ difference_pct: null, verdict: null });
    expect(mixed.warnings.map(({ code }) => code)).toEqual(['speeds-mixed']);
  });

  it('has what the rates alone make at constant work', () => {
    // (29/28)^(1/3): computed
    const [row] = compared([piece(1, { rate_spm: 29 })], [piece(1)]).compared!;
    expect(row!.by_rate_pct).toBeCloseTo(1.1767, 3);
  });
});

describe('all pieces of two days', () => {
  const meanOf = (speeds: readonly number[]) =>
    compared(
      speeds.map((speed_mps, i) => piece(i + 1, { speed_mps })),
      speeds.map((_, i) => piece(i + 1)),
    ).compared_mean;

  it('are told together from three on', () => {
    expect(meanOf([5.05, 5.05])).toBeNull();
    expect(meanOf([5.05, 5.05, 5.05])).toMatchObject({ piece_count: 3, verdict: 'faster' });
  });

  it('have the sd of the logs, or of how they differ among themselves where that is more', () => {
    expect(meanOf([5.05, 5.05, 5.05, 5.05])!.difference_sd_pct).toBeCloseTo((0.1 * Math.SQRT2) / 2, 2);
    // 0, 1, 2 %: sd 1 %, of the mean 1/√3; Student's t for two degrees of freedom is 4.303
    const spread = meanOf([5, 5.05, 5.1])!;
    expect(spread.difference_pct).toBeCloseTo(1, 9);
    expect(spread.difference_sd_pct).toBeCloseTo(1 / Math.sqrt(3), 9);
    expect(spread.verdict).toBe('no_difference_shown');
  });
});

describe('the frame of two days', () => {
  it('has the conditions of both, from their sheets', () => {
    const now = resultOf('now.gpx', [piece(1)], { wind: 'calm', stream: '0.1@90', crew: 'A', craft: '2x' });
    const then = resultOf('then.gpx', [piece(1)], { wind: 'light head', crew: 'B', craft: '2x' });
    const result = comparedPieces(now, then);
    expect(result.compared![0]).toMatchObject({
      wind: 'calm',
      with_wind: 'light head',
      stream: '0.1@90',
      with_stream: null,
    });
    expect(result.files).toEqual(['now.gpx', 'then.gpx']);
    expect(result.sheet.map(({ file }) => file)).toEqual(['now.gpx', 'then.gpx']);
    expect(result.pieces).toEqual(now.pieces);
    expect(result.warnings.map(({ code }) => code)).toEqual(['crews-differ']);
  });

  it('is empty of pairs where nothing is alike', () => {
    const result = compared([piece(1)], []);
    expect(result.compared).toEqual([]);
    expect(result.compared_mean).toBeNull();
  });
});
