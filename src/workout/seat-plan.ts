import { type CsvLine, parseCsvFile } from '../contract/located-csv.js';
import { grouped } from '../units/grouped.js';
import { UserError } from '../units/user-error.js';

/** Who sat in one boat in one piece. */
export interface Lineup {
  readonly boat: string;
  /** Its log, where the plan names one. */
  readonly file: string | null;
  /** Everyone aboard, by seat. */
  readonly seats: Readonly<Record<string, string>>;
  readonly errorAt: (column: string, what: string) => UserError;
}

/** One piece of a seat race. */
export interface SeatPiece {
  readonly piece: string;
  readonly windMps: number | null;
  readonly lineups: readonly Lineup[];
}

const SEATS = ['bow', '1', '2', '3', '4', '5', '6', '7', '8', 'stroke', 'cox'];
const COLUMNS = ['piece', 'boat', ...SEATS, 'file', 'order', 'wind_mps'];
const REQUIRED = 2;

const textOf = (line: CsvLine, column: string): string => {
  const text = line.cell(column);
  if (text === '') throw line.errorAt(column, `the ${column} is missing`);
  return text;
};

interface PlanLine {
  readonly line: CsvLine;
  readonly piece: string;
  readonly order: number | null;
  readonly windMps: number | null;
  readonly lineup: Lineup;
}

const planLine = (line: CsvLine): PlanLine => {
  const seats = Object.fromEntries(
    SEATS.flatMap((seat) => (line.cell(seat) === '' ? [] : [[seat, line.cell(seat)] as const])),
  );
  if (Object.keys(seats).length === 0)
    throw line.errorAt('boat', `no one sits in it: name the crew in columns ${SEATS.join(', ')}`);
  return {
    line,
    piece: textOf(line, 'piece'),
    order: line.number('order', 1, 1000),
    windMps: line.number('wind_mps', -40, 40),
    lineup: {
      boat: textOf(line, 'boat'),
      file: line.cell('file') || null,
      seats,
      errorAt: (column, what) => line.errorAt(column, what),
    },
  };
};

/** What all lines of a piece say of it must be one thing. */
const agreed = (lines: readonly PlanLine[], key: 'order' | 'windMps', column: string): number | null => {
  const given = lines.filter((each) => each[key] !== null);
  const [first] = given;
  const other = given.find((each) => each[key] !== first?.[key]);
  if (other !== undefined)
    throw other.line.errorAt(
      column,
      `${other[key]} came, and line ${first!.line.line} gives the same piece ${first![key]}: keep one of them`,
    );
  return first?.[key] ?? null;
};

const checkedPiece = (lines: readonly PlanLine[]): void => {
  const [first] = lines;
  if (lines.length < 2)
    throw first!.line.errorAt(
      'piece',
      `only one boat rows piece "${first!.piece}": write a line for each boat, two at least`,
    );
  const boats = new Map<string, number>();
  const people = new Map<string, number>();
  for (const { line, lineup } of lines) {
    const earlier = boats.get(lineup.boat);
    if (earlier !== undefined)
      throw line.errorAt('boat', `"${lineup.boat}" rows piece "${first!.piece}" in line ${earlier} already`);
    boats.set(lineup.boat, line.line);
    for (const [seat, person] of Object.entries(lineup.seats)) {
      const before = people.get(person);
      if (before !== undefined)
        throw line.errorAt(
          seat,
          `"${person}" sits in piece "${first!.piece}" twice, in line ${before} too: everyone has one seat`,
        );
      people.set(person, line.line);
    }
  }
};

/** A boat has the same seats in every piece: an empty one is a slip of the pen. */
const checkSeats = (lines: readonly PlanLine[]): void => {
  const firsts = new Map<string, PlanLine>();
  for (const each of lines) {
    const { line, lineup } = each;
    const first = firsts.get(lineup.boat);
    if (first === undefined) firsts.set(lineup.boat, each);
    else
      for (const seat of SEATS)
        if (seat in lineup.seats !== seat in first.lineup.seats)
          throw line.errorAt(
            seat,
            `seat ${seat} of "${lineup.boat}" is ${seat in lineup.seats ? 'taken' : 'empty'} here and ${seat in lineup.seats ? 'empty' : 'taken'} in line ${first.line.line}: a boat keeps its seats`,
          );
  }
};

/**
 * Read a plan of seat racing: CSV with a line for each boat in each piece; columns piece, boat, the seats (bow,
 * 1 to 8, stroke, cox), and perhaps file, order and wind_mps.
 * @param name the plan as messages name it
 * @returns the pieces in the order in which they were rowed
 * @throws UserError with line and column where it is not valid
 */
export const parseSeatPlan = (text: string, name: string): readonly SeatPiece[] => {
  const lines = parseCsvFile(text, name, COLUMNS, REQUIRED).map(planLine);
  checkSeats(lines);
  const byPiece = grouped(lines, ({ piece }) => piece);
  const pieces = [...byPiece].map(([piece, ofPiece]) => {
    checkedPiece(ofPiece);
    return {
      order: agreed(ofPiece, 'order', 'order'),
      first: ofPiece[0]!.line,
      piece: {
        piece,
        windMps: agreed(ofPiece, 'windMps', 'wind_mps'),
        lineups: ofPiece.map(({ lineup }) => lineup),
      },
    };
  });
  if (byPiece.size < 2)
    throw new UserError(
      `${name} has ${byPiece.size === 0 ? 'no piece' : 'one piece'}: a swap shows between two pieces at least`,
    );
  const ordered = pieces.filter(({ order }) => order !== null);
  if (ordered.length > 0 && ordered.length < pieces.length)
    throw pieces
      .find(({ order }) => order === null)!
      .first.errorAt('order', 'the order is missing: give it for every piece or for none');
  return [...pieces].sort((a, b) => (a.order ?? 0) - (b.order ?? 0)).map(({ piece }) => piece);
};
