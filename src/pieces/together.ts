import type { PieceRow, TogetherRow } from '../contract/pieces.js';

export const TOGETHER_SETTINGS = Object.freeze({
  /** Pieces of two boats belong together where they share this much of the shorter one's time. */
  sharedTime: 0.5,
  /** A margin of more than this many of its standard deviations is believed. */
  sureSds: 2,
});

interface Timed {
  readonly row: PieceRow;
  readonly fromS: number;
  readonly toS: number;
}

const timedOf = (row: PieceRow): Timed[] => {
  if (row.start_time === null) return [];
  const fromS = Date.parse(row.start_time) / 1000;
  return [{ row, fromS, toS: fromS + row.duration_s }];
};

const overlap = (a: Timed, b: Timed): number =>
  (Math.min(a.toS, b.toS) - Math.max(a.fromS, b.fromS)) / Math.min(a.toS - a.fromS, b.toS - b.fromS);

/** Pieces that were rowed at one time; a boat has at most one in each group. */
const groupsOf = (pieces: readonly Timed[]): Timed[][] => {
  const groups: Timed[][] = [];
  for (const piece of [...pieces].sort((a, b) => a.fromS - b.fromS)) {
    const group = groups.find(
      (candidate) =>
        overlap(candidate[0]!, piece) >= TOGETHER_SETTINGS.sharedTime &&
        candidate.every(({ row }) => row.file !== piece.row.file),
    );
    if (group === undefined) groups.push([piece]);
    else group.push(piece);
  }
  return groups.filter((group) => group.length > 1);
};

/** sd of a boat's time over a length that is not its own, s: its time's and its length's relative sd. */
const sdOver = (row: PieceRow, timeS: number): number | null => {
  if (row.duration_sd_s === null || row.distance_m === null) return null;
  return timeS * Math.hypot(row.duration_sd_s / row.duration_s, (row.distance_sd_m ?? 0) / row.distance_m);
};

const rowsOf = (group: readonly Timed[], number: number): TogetherRow[] => {
  const known = group.map(({ row }) => row).filter(({ distance_m, speed_mps }) => distance_m && speed_mps);
  if (known.length < 2) return [];
  const overM = Math.min(...known.map((row) => row.distance_m!));
  const ranked = known
    .map((row) => {
      const timeS = (overM * row.duration_s) / row.distance_m!;
      return { row, timeS, sdS: sdOver(row, timeS) };
    })
    .sort((a, b) => a.timeS - b.timeS);
  return ranked.map(({ row, timeS, sdS }, i) => {
    const ahead = ranked[i - 1];
    const marginS = ahead === undefined ? null : timeS - ahead.timeS;
    const joint =
      ahead === undefined || sdS === null || ahead.sdS === null ? null : Math.hypot(sdS, ahead.sdS);
    return {
      group: number,
      start_time: row.start_time,
      place: i + 1,
      crew: row.crew,
      file: row.file,
      piece: row.piece,
      distance_m: row.distance_m,
      duration_s: row.duration_s,
      duration_sd_s: row.duration_sd_s,
      compared_over_m: overM,
      compared_s: timeS,
      compared_sd_s: sdS,
      margin_winner_s: timeS - ranked[0]!.timeS,
      margin_ahead_s: marginS,
      separable: marginS === null || joint === null ? null : marginS > TOGETHER_SETTINGS.sureSds * joint,
      rate_spm: row.rate_spm,
      speed_mps: row.speed_mps,
      split_s_per_500m: row.split_s_per_500m,
      target_pct: row.target_pct,
    };
  });
};

/**
 * Boats side by side: pieces rowed at one time, matched by the clock. Lengths that differ are put on the
 * shortest by each boat's own speed.
 */
export const togetherRows = (pieces: readonly PieceRow[]): TogetherRow[] =>
  groupsOf(pieces.flatMap(timedOf)).flatMap((group, i) => rowsOf(group, i + 1));
