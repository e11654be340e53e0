import { describe, expect, it } from 'vitest';
import type { PieceRow } from '../../src/contract/pieces.js';
import { togetherRow } from '../../src/contract/pieces.js';
import { togetherRows } from '../../src/pieces/index.js';

const piece = (
  file: string,
  atS: number,
  durationS: number,
  distanceM: number,
  more: Partial<PieceRow> = {},
) =>
  ({
    piece: 1,
    file,
    crew: file.toUpperCase(),
    start_time: new Date(Date.UTC(2026, 4, 9, 8) + atS * 1000).toISOString(),
    duration_s: durationS,
    duration_sd_s: 0.2,
    distance_m: distanceM,
    distance_sd_m: 0,
    rate_spm: 30,
    speed_mps: distanceM / durationS,
    split_s_per_500m: (500 * durationS) / distanceM,
    target_pct: null,
    ...more,
  }) as PieceRow;

describe('boats side by side', () => {
  it('are matched by the clock and ranked', () => {
    const rows = togetherRows([
      piece('a', 0, 220, 1000),
      piece('a', 600, 221, 1000, { piece: 2 }),
      piece('b', 4, 216, 1000),
      piece('b', 603, 230, 1000, { piece: 2 }),
      piece('c', 605, 221.2, 1000),
    ]);
    expect(rows.map(({ group, place, file }) => [group, place, file])).toEqual([
      [1, 1, 'b'],
      [1, 2, 'a'],
      [2, 1, 'a'],
      [2, 2, 'c'],
      [2, 3, 'b'],
    ]);
    expect(rows[1]!.margin_ahead_s).toBeCloseTo(4, 9);
    expect(rows.map(({ separable }) => separable)).toEqual([null, true, null, false, true]);
    expect(rows[4]!.margin_winner_s).toBeCloseTo(9, 9);
    for (const row of rows) expect(togetherRow.safeParse(row).error?.issues).toBeUndefined();
  });

  it('are put on the shortest length where lengths differ, as in pieces by time', () => {
    const rows = togetherRows([
      piece('a', 0, 240, 1200, { duration_sd_s: 0, distance_sd_m: 2 }),
      piece('b', 0, 240, 1100, { duration_sd_s: 0, distance_sd_m: 2 }),
    ]);
    expect(rows.map(({ compared_over_m }) => compared_over_m)).toEqual([1100, 1100]);
    expect(rows[0]!.compared_s).toBeCloseTo(220, 9);
    expect(rows[1]!.margin_ahead_s).toBeCloseTo(20, 9);
    expect(rows[0]!.compared_sd_s).toBeCloseTo((220 * 2) / 1200, 9);
  });

  it('leave out pieces that no other boat rowed, and logs without a clock', () => {
    const alone = togetherRows([
      piece('a', 0, 200, 1000),
      piece('b', 150, 200, 1000),
      piece('c', 10, 200, 1000, { start_time: null }),
    ]);
    expect(alone).toEqual([]);
  });
});
