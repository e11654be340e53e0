import { type CsvLine, parseCsvFile } from '../contract/located-csv.js';
import { CRAFT_CODES, type Craft } from '../units/craft.js';
import { UserError } from '../units/user-error.js';

/** One crew of the entry list. */
export interface Entry {
  readonly event: string;
  readonly crew: string;
  readonly craft: Craft;
  /** Its log, as the list names it; null where it has none. */
  readonly track: string | null;
  readonly imu: string | null;
  readonly crewNumber: string | null;
  readonly lane: string | null;
  /** Unix time of the start, s. */
  readonly startUnixS: number | null;
  readonly bowOffsetM: number | null;
  readonly handicapS: number | null;
  readonly handicapPct: number | null;
  readonly penaltyS: number | null;
  readonly officialS: number | null;
  readonly excluded: boolean;
  /** Further columns, as they are. */
  readonly extra: Readonly<Record<string, string>>;
  readonly errorAt: (column: string, what: string) => UserError;
}

/** Columns of an entry list; the first four must be there. */
const COLUMNS = [
  'event',
  'crew',
  'craft',
  'track',
  'crew_number',
  'imu',
  'start_time',
  'bow_offset_m',
  'handicap_s',
  'handicap_pct',
  'penalty_s',
  'official_s',
  'excluded',
  'lane',
] as const;
type Column = (typeof COLUMNS)[number];

const REQUIRED = 4;
const YES = ['yes', 'true', '1', 'x'];
const NO = ['', 'no', 'false', '0'];

const textOrNull = (line: CsvLine, column: Column): string | null => line.cell(column) || null;

const textOf = (line: CsvLine, column: Column): string => {
  const text = line.cell(column);
  if (text === '') throw line.errorAt(column, `the ${column} is missing`);
  return text;
};

const craftOf = (line: CsvLine): Craft => {
  const text = textOf(line, 'craft');
  const found = CRAFT_CODES.find((code) => code.toLowerCase() === text.toLowerCase());
  if (found === undefined)
    throw line.errorAt('craft', `"${text}" is not a craft: use one of ${CRAFT_CODES.join(' ')}`);
  return found;
};

const secondsOf = (line: CsvLine, column: Column): number | null => {
  const text = line.cell(column);
  if (text === '') return null;
  const value = line.seconds(column);
  if (value === null || value <= 0)
    throw line.errorAt(column, `"${text}" is not a time: write seconds such as 421.6, or 7:01.6`);
  return value;
};

const flagOf = (line: CsvLine, column: Column): boolean => {
  const text = line.cell(column).toLowerCase();
  if (YES.includes(text)) return true;
  if (NO.includes(text)) return false;
  throw line.errorAt(column, `"${line.cell(column)}" is not yes or no`);
};

const entryOf = (line: CsvLine, zone: string): Entry => ({
  event: textOf(line, 'event'),
  crew: textOf(line, 'crew'),
  craft: craftOf(line),
  track: textOrNull(line, 'track'),
  imu: textOrNull(line, 'imu'),
  crewNumber: textOrNull(line, 'crew_number'),
  lane: textOrNull(line, 'lane'),
  startUnixS: line.instant('start_time', zone),
  bowOffsetM: line.number('bow_offset_m', -30, 30),
  handicapS: line.number('handicap_s', -3600, 3600),
  handicapPct: line.number('handicap_pct', -50, 50),
  penaltyS: line.number('penalty_s', 0, 3600),
  officialS: secondsOf(line, 'official_s'),
  excluded: flagOf(line, 'excluded'),
  extra: line.extra,
  errorAt: (column, what) => line.errorAt(column, what),
});

/**
 * Read an entry list: CSV with the columns event, crew, craft, track, and perhaps crew_number, imu, start_time,
 * bow_offset_m, handicap_s, handicap_pct, penalty_s, official_s, excluded and lane, in any order; further
 * columns are carried through.
 * @param name the list as messages name it
 * @param zone IANA name of the zone of start times that state none
 * @throws UserError with line and column where it is not valid, or names a crew or a log twice in one event
 */
export const parseEntries = (text: string, name: string, zone = 'UTC'): readonly Entry[] => {
  const seen = new Map<string, number>();
  const entries = parseCsvFile(text, name, COLUMNS, REQUIRED, 'carry').map((line) => {
    const entry = entryOf(line, zone);
    const once = (column: 'crew' | 'track', value: string | null) => {
      if (value === null) return;
      const key = JSON.stringify([entry.event, column, value]);
      const earlier = seen.get(key);
      if (earlier !== undefined)
        throw line.errorAt(
          column,
          `"${value}" stands in line ${earlier} already in the event "${entry.event}": keep one of them, or give them different ${column === 'crew' ? 'names' : 'logs'}`,
        );
      seen.set(key, line.line);
    };
    once('crew', entry.crew);
    once('track', entry.track);
    return entry;
  });
  if (entries.length === 0)
    throw new UserError(`${name} has no crew: write one line a crew below the heading`);
  return entries;
};
