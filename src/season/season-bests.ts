import type { BestRow } from '../contract/outing.js';
import type { SeasonBestRow } from '../contract/season.js';
import type { LogSummary, PieceSummary } from './log-summary.js';

/** A length that bests are wanted over. */
export type Asked = { readonly metres: number } | { readonly seconds: number };

/** Distances (m) and times (s) over which a season's bests are kept. */
export const SEASON_BESTS: readonly Asked[] = Object.freeze([
  ...[200, 250, 500, 1000, 1500, 2000, 5000, 6000].map((metres) => ({ metres })),
  ...[1, 4, 20, 30, 60].map((minutes) => ({ seconds: minutes * 60 })),
]);

/** A whole piece counts for a length within this share of it: crews do not stop on the metre. */
const PIECE_TOLERANCE = 0.02;

const isOver = (row: BestRow, asked: Asked): boolean =>
  'metres' in asked ? row.asked_m === asked.metres : row.asked_s === asked.seconds;

const key = (asked: Asked) => ('metres' in asked ? { asked_m: asked.metres } : { asked_s: asked.seconds });

const speed = ({ distance_m, duration_s }: { readonly distance_m: number; readonly duration_s: number }) =>
  distance_m / duration_s;

const fastest = <Row extends { readonly distance_m: number; readonly duration_s: number }>(
  rows: readonly Row[],
): Row | undefined =>
  rows.reduce<Row | undefined>((best, row) => (best && speed(best) >= speed(row) ? best : row), undefined);

const fits = (piece: PieceSummary, asked: Asked): boolean => {
  const share = 'metres' in asked ? piece.distance_m / asked.metres : piece.duration_s / asked.seconds;
  return Math.abs(share - 1) <= PIECE_TOLERANCE;
};

const groupOf = ({ outing }: LogSummary): string => JSON.stringify([outing.crew, outing.craft]);

/**
 * The best over each length of each crew in each craft: among all stretches, and among whole pieces of about that
 * length. Crafts are never held against one another.
 */
export const seasonBests = (summaries: readonly LogSummary[], asked: readonly Asked[]): SeasonBestRow[] =>
  [...new Set(summaries.map(groupOf))].sort().flatMap((group) =>
    bestsOf(
      summaries.filter((summary) => groupOf(summary) === group),
      asked,
    ),
  );

const bestsOf = (summaries: readonly LogSummary[], asked: readonly Asked[]): SeasonBestRow[] => {
  const stretches = asked.flatMap((length) => {
    const rows = summaries.flatMap(({ outing }) =>
      outing.best
        .filter((row) => isOver(row, length))
        .map((row) => ({
          kind: 'stretch' as const,
          ...row,
          crew: outing.crew,
          craft: outing.craft,
          file: outing.file,
          piece: null,
        })),
    );
    return fastest(rows) ?? [];
  });
  const pieces = asked.flatMap((length) => {
    const rows = summaries.flatMap(({ outing, pieces: found }) =>
      found
        .filter((piece) => fits(piece, length))
        .map((piece) => ({
          kind: 'piece' as const,
          ...key(length),
          ...piece,
          crew: outing.crew,
          craft: outing.craft,
          file: outing.file,
        })),
    );
    return fastest(rows) ?? [];
  });
  return [...stretches, ...pieces];
};
