import { describe, expect, it } from 'vitest';
import type { DrawnPiece } from '../../src/contract/drawn.js';
import type { PieceRow, PiecesResult, TogetherRow } from '../../src/contract/pieces.js';
import { togetherGaps } from '../../src/pieces/index.js';

/** A boat at an even speed, whose own way is longer than the course by a share. */
const boat = (file: string, mps: number, longer: number) => {
  const durationS = 1000 / mps;
  const drawn: DrawnPiece = {
    file,
    piece: 1,
    moments: Array.from({ length: 100 }, (_, i) => {
      const atS = ((i + 0.5) * durationS) / 100;
      return {
        at_s: atS,
        cumulative_s: atS,
        along_m: atS * mps * longer,
        speed_mps: mps * longer,
        rate_spm: 30,
      };
    }),
  };
  const parts = [0, 1].map((i) => ({
    from_along_m: 500 * i,
    to_along_m: 500 * (i + 1),
    duration_s: durationS / 2,
    cumulative_s: ((i + 1) * durationS) / 2,
  }));
  return { row: { file, piece: 1, parts } as unknown as PieceRow, drawn };
};

describe('the gap between boats along the water', () => {
  const [fast, slow] = [boat('fast', 5, 1), boat('slow', 4, 1.02)];
  const rows = [
    {
      group: 1,
      place: 1,
      file: 'fast',
      piece: 1,
      compared_over_m: 1000,
      compared_sd_s: 0.3,
      margin_winner_s: 0,
    },
    {
      group: 1,
      place: 2,
      file: 'slow',
      piece: 1,
      compared_over_m: 1000,
      compared_sd_s: 0.4,
      margin_winner_s: 50,
    },
  ] as TogetherRow[];
  const result = { pieces: [fast.row, slow.row], drawn: [fast.drawn, slow.drawn] } as unknown as PiecesResult;
  const [gap, ...more] = togetherGaps(rows, result);

  it('is of time at the same metre of the course, however far each boat rowed to it', () => {
    expect(more).toEqual([]);
    expect(gap!.gaps).toHaveLength(100);
    for (const { along_m, gap_s } of gap!.gaps) expect(gap_s).toBeCloseTo(along_m / 4 - along_m / 5, 1);
    expect(gap!.gaps.at(-1)!.gap_s).toBeCloseTo(50, 6);
  });

  it('ends at the margin, with the sd of both times', () => {
    expect(gap).toMatchObject({ file: 'slow', against_file: 'fast', end_along_m: 1000, end_gap_s: 50 });
    expect(gap!.end_gap_sd_s).toBeCloseTo(0.5, 9);
  });
});
