import type { DrawnGap, DrawnPieceMoment } from '../contract/drawn.js';
import type { PieceRow, PiecesResult, TogetherRow } from '../contract/pieces.js';

/** Length from one gap to the next, m; 5 to 20: about a stroke. */
const EVERY_M = 10;

/** Where a boat was after a time: metres of the piece, as its parts count them. */
interface Spot {
  readonly alongM: number;
  readonly atS: number;
}

/** Own way rowed after a time, between the moments around it, m; beyond the last at the speed there. */
const wayAt = (moments: readonly DrawnPieceMoment[], atS: number): number | null => {
  if (atS <= 0) return 0;
  const known = moments.filter(({ along_m }) => along_m !== null);
  const i = known.findIndex(({ cumulative_s }) => cumulative_s >= atS);
  const [before, after] =
    i === 0
      ? [{ cumulative_s: 0, along_m: 0 }, known[0]]
      : i < 0
        ? [known.at(-2), known.at(-1)]
        : [known[i - 1], known[i]];
  if (before === undefined || after === undefined) return null;
  const share = (atS - before.cumulative_s) / (after.cumulative_s - before.cumulative_s);
  return before.along_m! + share * (after.along_m! - before.along_m!);
};

/**
 * The way of a piece in metres of its parts. Along a course these are metres of the course, of which a boat that does
 * not go straight rows more; between two borders of parts its own way is brought to their length.
 */
const spotsOf = ({ parts }: PieceRow, moments: readonly DrawnPieceMoment[]): readonly Spot[] => {
  const spots: Spot[] = [{ alongM: 0, atS: 0 }];
  for (const { from_along_m, to_along_m, cumulative_s, duration_s } of parts) {
    if (from_along_m === null || to_along_m === null) return [];
    const fromS = cumulative_s - duration_s;
    const [startM, endM] = [wayAt(moments, fromS), wayAt(moments, cumulative_s)];
    if (startM !== null && endM !== null && endM > startM)
      for (const { along_m, cumulative_s: atS } of moments)
        if (along_m !== null && atS > fromS && atS < cumulative_s)
          spots.push({
            alongM: from_along_m + ((along_m - startM) / (endM - startM)) * (to_along_m - from_along_m),
            atS,
          });
    spots.push({ alongM: to_along_m, atS: cumulative_s });
  }
  return spots;
};

/** Time from the start to a length, s; null beyond the way that is known. */
const timeAt = (spots: readonly Spot[], alongM: number): number | null => {
  const i = spots.findIndex((spot) => spot.alongM >= alongM);
  const [before, after] = [spots[i - 1], spots[i]];
  if (before === undefined || after === undefined) return null;
  const lengthM = after.alongM - before.alongM;
  return before.atS + (lengthM > 0 ? ((alongM - before.alongM) / lengthM) * (after.atS - before.atS) : 0);
};

const wayOf = ({ pieces, drawn = [] }: PiecesResult, { file, piece }: TogetherRow): readonly Spot[] => {
  const same = (each: { readonly file: string; readonly piece: number }) =>
    each.file === file && each.piece === piece;
  const row = pieces.find(same);
  return row === undefined ? [] : spotsOf(row, drawn.find(same)?.moments ?? []);
};

const gapsOf = (row: TogetherRow, first: TogetherRow, result: PiecesResult): DrawnGap => {
  const [own, theirs] = [wayOf(result, row), wayOf(result, first)];
  const gaps: { along_m: number; gap_s: number }[] = [];
  for (let alongM = EVERY_M; alongM <= row.compared_over_m; alongM += EVERY_M) {
    const [ownS, theirS] = [timeAt(own, alongM), timeAt(theirs, alongM)];
    if (ownS !== null && theirS !== null) gaps.push({ along_m: alongM, gap_s: ownS - theirS });
  }
  const known = row.compared_sd_s !== null && first.compared_sd_s !== null;
  return {
    group: row.group,
    file: row.file,
    against_file: first.file,
    gaps,
    end_along_m: row.compared_over_m,
    end_gap_s: row.margin_winner_s,
    end_gap_sd_s: known ? Math.hypot(row.compared_sd_s!, first.compared_sd_s!) : null,
  };
};

/**
 * How far behind the fastest boat of its group every other was, along the water, each from its own start.
 * @param rows boats side by side, as `togetherRows` gives them
 * @param result their pieces, with the moments that are drawn
 */
export const togetherGaps = (rows: readonly TogetherRow[], result: PiecesResult): readonly DrawnGap[] =>
  rows
    .filter(({ place }) => place > 1)
    .map((row) => gapsOf(row, rows.find(({ group, place }) => group === row.group && place === 1)!, result));
