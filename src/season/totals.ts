import type { RateBandRow } from '../contract/outing.js';
import type { TotalsRow } from '../contract/season.js';
import { grouped } from '../units/grouped.js';
import type { LogSummary } from './log-summary.js';

/** Sums over outings; what is not known adds nothing. */
export const totalsOf = (summaries: readonly LogSummary[]): TotalsRow => {
  const sum = (value: (summary: LogSummary) => number | null): number =>
    summaries.reduce((total, summary) => total + (value(summary) ?? 0), 0);
  return {
    outing_count: summaries.length,
    distance_m: sum(({ outing }) => outing.distance_m),
    rowing_s: sum(({ outing }) => outing.rowing_s),
    stroke_count: sum(({ outing }) => outing.stroke_count),
  };
};

/** Least share of a band's strokes that a mean must rest on: a few strokes do not stand for a season. */
const LEAST_SHARE = 0.5;

/** Mean weighted by strokes; null where it is known of fewer than half of them. */
const strokeMean = (
  rows: readonly RateBandRow[],
  value: (row: RateBandRow) => number | null,
): number | null => {
  const known = rows.filter((row) => value(row) !== null && row.stroke_count > 0);
  const weight = strokesOf(known);
  if (weight === 0 || weight < LEAST_SHARE * strokesOf(rows)) return null;
  return known.reduce((sum, row) => sum + value(row)! * row.stroke_count, 0) / weight;
};

const strokesOf = (rows: readonly RateBandRow[]): number =>
  rows.reduce((sum, row) => sum + row.stroke_count, 0);

const keyOf = ({ from_spm, to_spm }: RateBandRow): string => `${from_spm} ${to_spm}`;

/** Rate bands of several outings added up, in the order of the first outing that has each. */
export const bandsOf = (summaries: readonly LogSummary[]): RateBandRow[] => {
  const bands = grouped(
    summaries.flatMap(({ outing }) => outing.rate_bands),
    keyOf,
  );
  const strokes = strokesOf([...bands.values()].flat());
  return [...bands.values()]
    .map((rows): RateBandRow => {
      const strokeCount = strokesOf(rows);
      return {
        from_spm: rows[0]!.from_spm,
        to_spm: rows[0]!.to_spm,
        stroke_count: strokeCount,
        rowing_s: rows.reduce((sum, row) => sum + row.rowing_s, 0),
        distance_m: rows.every((row) => row.distance_m === null)
          ? null
          : rows.reduce((sum, row) => sum + (row.distance_m ?? 0), 0),
        share_pct: strokes === 0 ? null : (100 * strokeCount) / strokes,
        speed_variation: strokeMean(rows, (row) => row.speed_variation),
        extra_drag_power_pct: strokeMean(rows, (row) => row.extra_drag_power_pct),
      };
    })
    .sort(byRate);
};

/** Lowest band first; strokes without a rate (both bounds null) last. */
const byRate = (a: RateBandRow, b: RateBandRow): number => {
  const rank = ({ from_spm, to_spm }: RateBandRow) =>
    from_spm ?? (to_spm === null ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY);
  return rank(a) === rank(b) ? 0 : rank(a) - rank(b);
};
