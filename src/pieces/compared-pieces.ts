import type { WarningRow } from '../contract/envelope.js';
import type { ComparedRow } from '../contract/piece-detail.js';
import type { PieceRow, PiecesResult } from '../contract/pieces.js';
import type { WarningCode } from '../contract/severity.js';
import { comparedMeanOf } from './compared-mean.js';
import { comparedVariation, type Difference } from './compared-variation.js';
import { verdictOf } from './compared-verdict.js';

/** Which pieces of two days are like one another. */
export const COMPARED_SETTINGS = Object.freeze({
  /** Times or distances within this share; 0.03 to 0.06: a longer piece is rowed slower. */
  lengthShare: 0.05,
  /** Rates within this, spm; 1 to 2: a stroke a minute is about 1 % of speed. */
  rateSpm: 1.5,
  /** Pieces this close in likeness are taken in the order in which they were rowed; 0.3 to 1. */
  alike: 0.5,
  /** Directions further apart than this meet other wind and stream, degrees; 30 to 60. */
  directionDeg: 45,
});

/** Speed at constant work a stroke ~ rate to this power. */
const CONSTANT_WORK = 1 / 3;

/** Angle between the directions of two pieces, degrees, 0 to 180; null where one is not known. */
const turnedDeg = (a: PieceRow, b: PieceRow): number | null =>
  a.heading_deg === null || b.heading_deg === null
    ? null
    : Math.abs(((a.heading_deg - b.heading_deg + 540) % 360) - 180);

/** Difference of the rates, spm; null where one is not known. */
const rateApart = (a: PieceRow, b: PieceRow): number | null =>
  a.rate_spm === null || b.rate_spm === null ? null : Math.abs(a.rate_spm - b.rate_spm);

/** How unlike two pieces are; null where they are no match. */
const mismatch = (a: PieceRow, b: PieceRow): number | null => {
  const { lengthShare, rateSpm, directionDeg } = COMPARED_SETTINGS;
  const byTime = Math.abs(Math.log(a.duration_s / b.duration_s));
  const byDistance =
    a.distance_m === null || b.distance_m === null
      ? Number.POSITIVE_INFINITY
      : Math.abs(Math.log(a.distance_m / b.distance_m));
  const length = Math.min(byTime, byDistance);
  const rate = rateApart(a, b) ?? rateSpm;
  if (a.start !== b.start || length > lengthShare || rate > rateSpm) return null;
  return (turnedDeg(a, b) ?? 0) > directionDeg ? null : length / lengthShare + rate / rateSpm;
};

/** Each piece with the likest that is still free; pieces as like one another in the order of the day. */
const matched = (now: readonly PieceRow[], then: readonly PieceRow[]): readonly [PieceRow, PieceRow][] => {
  const free = new Set(then);
  return now.flatMap((piece): [PieceRow, PieceRow][] => {
    let best: { readonly other: PieceRow; readonly step: number } | null = null;
    for (const other of free) {
      const cost = mismatch(piece, other);
      const step = cost === null ? null : Math.floor(cost / COMPARED_SETTINGS.alike);
      if (step !== null && (best === null || step < best.step)) best = { other, step };
    }
    if (best === null) return [];
    free.delete(best.other);
    return [[piece, best.other]];
  });
};

const share = ({ speed_mps, speed_sd_mps }: PieceRow): number | null =>
  speed_mps === null || speed_sd_mps === null || speed_mps <= 0 ? null : speed_sd_mps / speed_mps;

/** What differs in speed by the logs alone; null where that cannot be known. */
const differenceOf = (
  a: PieceRow,
  b: PieceRow,
): { readonly pct: number; readonly logSdPct: number | null } | null => {
  if (a.speed_over !== b.speed_over || a.speed_mps === null || b.speed_mps === null || b.speed_mps <= 0)
    return null;
  const ratio = a.speed_mps / b.speed_mps;
  const [own, other] = [share(a), share(b)];
  return {
    pct: 100 * (ratio - 1),
    logSdPct: own === null || other === null ? null : 100 * ratio * Math.hypot(own, other),
  };
};

/** The difference with the sd of the logs and of two days of one crew. */
const judged = (found: ReturnType<typeof differenceOf>, variationPct: number) => {
  if (found === null) return { difference_pct: null, difference_sd_pct: null, verdict: null };
  const { pct, logSdPct } = found;
  const sdPct = logSdPct === null ? null : Math.hypot(logSdPct, Math.SQRT2 * variationPct);
  return {
    difference_pct: pct,
    difference_sd_pct: sdPct,
    verdict: sdPct === null ? null : verdictOf(pct, sdPct),
  };
};

const byRatePct = (a: PieceRow, b: PieceRow): number | null =>
  a.rate_spm === null || b.rate_spm === null ? null : 100 * ((a.rate_spm / b.rate_spm) ** CONSTANT_WORK - 1);

const sheetOf = ({ sheet }: PiecesResult, file: string) => sheet.find((row) => row.file === file);

const rowOf = (
  now: PiecesResult,
  then: PiecesResult,
  [piece, other]: readonly [PieceRow, PieceRow],
  variationPct: number,
): ComparedRow => ({
  file: piece.file,
  piece: piece.piece,
  with_file: other.file,
  with_piece: other.piece,
  distance_m: piece.distance_m,
  with_distance_m: other.distance_m,
  duration_s: piece.duration_s,
  with_duration_s: other.duration_s,
  rate_spm: piece.rate_spm,
  with_rate_spm: other.rate_spm,
  speed_mps: piece.speed_mps,
  with_speed_mps: other.speed_mps,
  rate_apart_spm: rateApart(piece, other),
  direction_apart_deg: turnedDeg(piece, other),
  ...judged(differenceOf(piece, other), variationPct),
  by_rate_pct: byRatePct(piece, other),
  headwind_mps: piece.headwind_mps,
  with_headwind_mps: other.headwind_mps,
  wind: sheetOf(now, piece.file)?.wind ?? null,
  with_wind: sheetOf(then, other.file)?.wind ?? null,
  stream: sheetOf(now, piece.file)?.stream ?? null,
  with_stream: sheetOf(then, other.file)?.stream ?? null,
});

/** What else differs between the days, beside the crew's speed. */
const warningsOf = (
  now: PiecesResult,
  then: PiecesResult,
  pairs: readonly (readonly [PieceRow, PieceRow])[],
): WarningRow[] => {
  const warning = (code: WarningCode, file: string, message: string): WarningRow => ({
    code,
    file,
    where: null,
    message,
  });
  const [pair] = pairs;
  if (pair === undefined) return [];
  const [{ file }, { file: other }] = pair;
  const said: WarningRow[] = [];
  for (const key of ['craft', 'crew'] as const) {
    const [own, its] = [sheetOf(now, file)?.[key] ?? null, sheetOf(then, other)?.[key] ?? null];
    if (own !== null && its !== null && own !== its)
      said.push(
        warning(
          `${key}s-differ`,
          file,
          `The ${key} is ${own} and that of ${other} is ${its}: compare like with like.`,
        ),
      );
  }
  if (pairs.some(([a, b]) => a.speed_over !== b.speed_over))
    said.push(
      warning(
        'speeds-mixed',
        file,
        `The stream is known for one of the two days only, so speed over ground stands beside speed through the water and no difference is given: put the stream of both on the outing sheet.`,
      ),
    );
  const unrated = pairs.filter(([a, b]) => rateApart(a, b) === null).map(([{ piece }]) => piece);
  if (unrated.length > 0)
    said.push(
      warning(
        'rates-unknown',
        file,
        `The rate of ${unrated.length === 1 ? 'piece' : 'pieces'} ${unrated.join(', ')} is not known on both days, so they are paired by start, length and direction alone, and another rate may be the difference.`,
      ),
    );
  return said;
};

/**
 * Pieces beside those of another day that are like them in start, length, rate and direction, with what differs in
 * speed, and whether that is more than two days of one crew differ.
 * @param givenPct how much the crew varies from day to day, sd, %; null for the published value
 * @returns the result with both days in its frame
 */
export const comparedPieces = <Result extends PiecesResult>(
  now: Result,
  then: PiecesResult,
  givenPct: number | null = null,
): Result => {
  const pairs = matched(now.pieces, then.pieces);
  const known = pairs.flatMap(([piece, other]): Difference[] => {
    const found = differenceOf(piece, other);
    return found === null || found.logSdPct === null ? [] : [{ pct: found.pct, logSdPct: found.logSdPct }];
  });
  const variation = comparedVariation(known, givenPct);
  const added = <Row>(own: readonly Row[], others: readonly Row[]): Row[] => [...own, ...others];
  return {
    ...now,
    files: added(now.files, then.files),
    warnings: [...now.warnings, ...then.warnings, ...warningsOf(now, then, pairs)],
    error_model: added(now.error_model, then.error_model),
    sheet: added(now.sheet, then.sheet),
    compared: pairs.map((pair) => rowOf(now, then, pair, variation.variation_pct)),
    compared_mean: comparedMeanOf(known, variation),
    compared_variation: variation,
  };
};
