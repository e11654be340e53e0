import type { WarningRow } from '../contract/envelope.js';
import type { PieceRow, PiecesResult, TogetherRow } from '../contract/pieces.js';
import type { MarginRow, SeatsResult, SwapRow } from '../contract/seats.js';
import type { WarningCode } from '../contract/severity.js';
import { stemOf } from '../outing/index.js';
import { togetherRows } from '../pieces/index.js';
import { grouped } from '../units/grouped.js';
import { UserError } from '../units/user-error.js';
import type { Lineup, SeatPiece } from './seat-plan.js';
import { marginSdS, type SeatMargin, SWAP_SETTINGS, seatSwaps } from './seat-swaps.js';

/** Lengths of the pieces of a swap that differ by more than this are said, %; 5 to 20. */
const UNEQUAL_PCT = 10;
/** Wind that changes by more than this between the pieces of a swap is said, m/s; 1 to 2. */
const WIND_CHANGE_MPS = 1;

/** What the logs of the session gave, and how they were named. */
export interface SeatLogs {
  /** The logs as they were named, the unreadable too. */
  readonly files: readonly string[];
  /** Null where none could be read. */
  readonly pieces: PiecesResult;
}

const same = (a: string, b: string): boolean => a.toLowerCase() === b.toLowerCase();

/** The log of a boat: the one that the plan names, else the one that is called like the boat, or its crew. */
const logOf = ({ boat, file, errorAt }: Lineup, { files, pieces }: SeatLogs): string => {
  const wanted = file ?? boat;
  const byName = files.filter(
    (log) => same(log, wanted) || same(stemOf(log), stemOf(wanted)) || same(stemOf(log), wanted),
  );
  const crews = pieces.sheet.filter(({ crew }) => crew !== null && same(crew, wanted));
  const found = byName.length > 0 ? byName : [...new Set(crews.map((row) => row.file))];
  const [log] = found;
  const logs = files.map(stemOf).join(', ');
  if (log === undefined)
    throw errorAt(
      file === null ? 'boat' : 'file',
      `no log given is called "${wanted}" (${logs}): name the boat like its log, or name the log in a column file`,
    );
  if (found.length > 1)
    throw errorAt(
      file === null ? 'boat' : 'file',
      `"${wanted}" may be ${found.join(' or ')}: name the log in a column file`,
    );
  return log;
};

/** Pieces that the boats of the plan rowed side by side, in time order. */
const groupsOf = (pieces: readonly PieceRow[], logs: ReadonlySet<string>): TogetherRow[][] => {
  const rows = togetherRows(pieces.filter(({ file }) => logs.has(file)));
  return [...grouped(rows, ({ group }) => group).values()];
};

const matched = (plan: readonly SeatPiece[], groups: readonly TogetherRow[][]): readonly TogetherRow[][] => {
  if (groups.length === plan.length) return groups;
  const seen = groups.map(
    ([row]) => `${row!.start_time?.slice(11, 19) ?? 'at no time'} over ${row!.compared_over_m.toFixed(0)} m`,
  );
  throw new UserError(
    `the plan has ${plan.length} pieces, and the boats did ${groups.length === 0 ? 'none' : groups.length} together${groups.length === 0 ? ' by their clocks' : ` (${seen.join(', ')})`}: say how long a piece is with --distance or --time, or put into the plan what was done`,
  );
};

interface Pair {
  readonly boat: string;
  readonly otherBoat: string;
  readonly overM: number;
  readonly rows: readonly MarginRow[];
  readonly margins: readonly SeatMargin[];
}

const peopleOf = ({ seats }: Lineup): string[] => Object.values(seats);

/** Both boats of a pair in one piece; null where one of them did not row it or its time has no sd. */
const sideBySide = (
  piece: SeatPiece,
  group: readonly TogetherRow[],
  heading: (row: TogetherRow) => number | null,
  boats: readonly [string, string],
  logs: SeatLogs,
): Omit<MarginRow, 'margin_sd_s'> | null => {
  const [own, other] = boats.map((boat) => piece.lineups.find((lineup) => lineup.boat === boat));
  if (own === undefined || other === undefined) return null;
  const [ownRow, otherRow] = [own, other].map((lineup) => {
    const log = logOf(lineup, logs);
    return group.find(({ file }) => file === log);
  });
  if (ownRow === undefined || otherRow === undefined) return null;
  if (ownRow.compared_sd_s === null || otherRow.compared_sd_s === null) return null;
  return {
    piece: piece.piece,
    start_time: ownRow.start_time,
    boat: own.boat,
    other_boat: other.boat,
    people: peopleOf(own),
    other_people: peopleOf(other),
    compared_over_m: ownRow.compared_over_m,
    compared_s: ownRow.compared_s,
    other_compared_s: otherRow.compared_s,
    margin_s: otherRow.compared_s - ownRow.compared_s,
    timing_sd_s: Math.hypot(ownRow.compared_sd_s, otherRow.compared_sd_s),
    rate_spm: ownRow.rate_spm,
    other_rate_spm: otherRow.rate_spm,
    heading_deg: heading(ownRow),
    wind_mps: piece.windMps,
  };
};

/** The margin over the length that all pieces of the pair are reported over. */
const onLength = (row: Omit<MarginRow, 'margin_sd_s'>, overM: number): SeatMargin => {
  const share = overM / row.compared_over_m;
  return {
    piece: row.piece,
    people: row.people,
    otherPeople: row.other_people,
    marginS: share * row.margin_s,
    timingSdS: share * row.timing_sd_s,
    timeS: (share * (row.compared_s + row.other_compared_s)) / 2,
  };
};

const pairsOf = (plan: readonly SeatPiece[]): (readonly [string, string])[] => {
  const boats = [...new Set(plan.flatMap(({ lineups }) => lineups.map(({ boat }) => boat)))];
  return boats.flatMap((boat, i) => boats.slice(i + 1).map((other) => [boat, other] as const));
};

const warningsOf = ({ boat, otherBoat, rows }: Pair, swaps: readonly SwapRow[]): WarningRow[] => {
  const warn = (code: WarningCode, message: string): WarningRow => ({
    code,
    file: null,
    where: null,
    message,
  });
  const of = (swap: SwapRow) => rows.filter(({ piece }) => swap.pieces.includes(piece));
  const spread = (values: readonly number[]) => Math.max(...values) - Math.min(...values);
  const unequal = swaps.filter((swap) => {
    const lengths = of(swap).map(({ compared_over_m }) => compared_over_m);
    return (100 * spread(lengths)) / Math.min(...lengths) > UNEQUAL_PCT;
  });
  const windy = swaps.filter((swap) => {
    const winds = of(swap).flatMap(({ wind_mps }) => (wind_mps === null ? [] : [wind_mps]));
    return winds.length > 1 && spread(winds) > WIND_CHANGE_MPS;
  });
  const list = (some: readonly SwapRow[]) => some.map(({ pieces }) => pieces.join(', ')).join(' and ');
  return [
    ...(swaps.length === 0
      ? [
          warn(
            'no-swap',
            `Between ${boat} and ${otherBoat} no one was swapped from one piece to the next with everyone else staying, so these pieces show no swap.`,
          ),
        ]
      : []),
    ...(unequal.length > 0
      ? [
          warn(
            'pieces-unequal',
            `The pieces ${list(unequal)} are not of one length: their margins are put on the shortest in proportion, which pacing may spoil.`,
          ),
        ]
      : []),
    ...(windy.length > 0
      ? [
          warn(
            'wind-changed',
            `The wind changed between the pieces ${list(windy)}: boats side by side share it, but it does not slow every crew alike.`,
          ),
        ]
      : []),
  ];
};

/**
 * Seat racing: the margin of each piece, and what each swap was worth.
 * @param plan pieces in the order in which they were rowed
 * @param knownPct how much a crew's time varies from piece to piece, %; null for the usual
 * @throws UserError where the plan does not go with the logs
 */
export const seatsResultOf = (
  plan: readonly SeatPiece[],
  logs: SeatLogs,
  knownPct: number | null,
): SeatsResult => {
  const { pieces } = logs;
  const files = new Set(plan.flatMap(({ lineups }) => lineups.map((lineup) => logOf(lineup, logs))));
  const groups = matched(plan, groupsOf(pieces.pieces, files));
  const heading = (row: TogetherRow) =>
    pieces.pieces.find(({ file, piece }) => file === row.file && piece === row.piece)?.heading_deg ?? null;
  const drafts = pairsOf(plan).map((boats) => {
    const rows = plan.flatMap((piece, i) => sideBySide(piece, groups[i]!, heading, boats, logs) ?? []);
    const overM = Math.min(...rows.map(({ compared_over_m }) => compared_over_m));
    return { boats, rows, overM, margins: rows.map((row) => onLength(row, overM)) };
  });
  const found = seatSwaps(
    drafts.map(({ margins }) => margins),
    knownPct,
  );
  const { variation } = found;
  const pairs = drafts.map(
    ({ boats: [boat, otherBoat], rows, overM, margins }): Pair => ({
      boat,
      otherBoat,
      overM,
      margins,
      rows: rows.map((row) => ({
        ...row,
        margin_sd_s: marginSdS(onLength(row, row.compared_over_m), variation.pct),
      })),
    }),
  );
  let number = 0;
  const swaps = pairs.map(({ boat, otherBoat, overM }, i) =>
    found.byPair[i]!.map((swap): SwapRow => {
      number += 1;
      return {
        swap: number,
        boat,
        other_boat: otherBoat,
        people: [...swap.people],
        against: [...swap.against],
        pieces: [...swap.pieces],
        swapped_back: swap.swappedBack,
        over_m: overM,
        change_s: swap.changeS,
        change_sd_s: swap.changeSdS,
        // Who leaves one boat for the other moves the margin twice.
        worth_s: -swap.changeS / 2,
        worth_sd_s: swap.changeSdS / 2,
        drift_s: swap.driftS,
        shown: Math.abs(swap.changeS) > SWAP_SETTINGS.shownSds * swap.changeSdS,
      };
    }),
  );
  return {
    schema: 'thole/seats/1',
    files: pieces.files,
    warnings: [
      ...pieces.warnings,
      ...pairs.flatMap((pair, i) => (pair.rows.length === 0 ? [] : warningsOf(pair, swaps[i]!))),
    ],
    error_model: pieces.error_model,
    sheet: pieces.sheet,
    variation_pct: variation.pct,
    variation_by: variation.by,
    repeat_count: variation.repeatCount,
    margins: pairs.flatMap(({ rows }) => rows),
    swaps: swaps.flat(),
  };
};
