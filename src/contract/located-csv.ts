import { CsvError, parse } from 'csv-parse/sync';
import { parseClock } from '../units/clock-time.js';
import { closest } from '../units/closest.js';
import { parseWrittenTime } from '../units/instant.js';
import { UserError } from '../units/user-error.js';
import { type CsvDialect, dialectOf, pointed } from './csv-dialect.js';

/** One line of an input file in CSV: its cells by column name, and how to say what is wrong with it. */
export interface CsvLine {
  readonly line: number;
  /** The cell under a heading, trimmed; '' where the line is short or the column is not there. */
  readonly cell: (column: string) => string;
  /**
   * The number under a heading, with a decimal point or comma; null where the cell is empty.
   * @throws UserError where it is none, or not from min to max
   */
  readonly number: (column: string, min: number, max: number) => number | null;
  /** The length of time under a heading, s: `421.6` or `7:01,6`; null where the cell is empty or holds none. */
  readonly seconds: (column: string) => number | null;
  /**
   * The instant under a heading, seconds since 1970-01-01T00:00:00Z; null where the cell is empty.
   * @param zone IANA name of the zone of times that state none
   * @throws UserError where it is none, or may be one of two days
   */
  readonly instant: (column: string, zone: string) => number | null;
  /** Cells of columns that the file may have besides; empty unless asked for. */
  readonly extra: Readonly<Record<string, string>>;
  readonly errorAt: (column: string | null, what: string) => UserError;
}

/** A further column with a name this long that resembles a known one is taken for a slip of it. */
const SLIP_LETTERS = 7;

const placed = (name: string, line: number, column: string | null, what: string): UserError =>
  new UserError(`${name}, line ${line}${column === null ? '' : `, column ${column}`}: ${what}`);

const missing = (column: string, headings: readonly string[]): string => {
  const near = closest(column, headings);
  return `there is no column "${column}": the first line must name it${near === null ? '' : `; is "${near}" meant?`}`;
};

/** What is wrong with a first line that names no known column: what was found, and what each may have been meant for. */
const unknownHeadings = (found: readonly string[], columns: readonly string[]): string => {
  const nearest = found.flatMap((heading) => {
    const near = closest(heading.toLowerCase(), columns);
    return near === null ? [] : [`"${heading}" may be "${near}"`];
  });
  return `no heading here is a column of this file (found: ${found.map((heading) => `"${heading}"`).join(', ')})${nearest.length > 0 ? `; ${nearest.join(', ')}` : ''}: the first line must name the columns, ${columns.join(', ')}`;
};

/** The values of one line's cells. */
const valuesOf = (
  cell: CsvLine['cell'],
  errorAt: CsvLine['errorAt'],
  dialect: CsvDialect,
): Pick<CsvLine, 'number' | 'seconds' | 'instant'> => {
  const figure = (column: string): string => {
    const text = cell(column);
    const read = pointed(text, dialect);
    if (read === null)
      throw errorAt(
        column,
        `"${text}" may be ${text.replace(/[.,]/, '')} or ${text.replace(',', '.')}: write it without a mark between thousands, or with another number of decimals`,
      );
    return read;
  };
  return {
    number: (column, min, max) => {
      const text = figure(column);
      if (text === '') return null;
      const value = Number(text);
      if (!(value >= min && value <= max))
        throw errorAt(column, `"${cell(column)}" is not a number from ${min} to ${max}`);
      return value;
    },
    seconds: (column) => parseClock(figure(column)),
    instant: (column, zone) => {
      const text = cell(column);
      if (text === '') return null;
      const value = parseWrittenTime(text, zone, dialect.dayFirst);
      if (value === 'ambiguous')
        throw errorAt(
          column,
          `"${text}" may have the day or the month first: write the year first, as 2026-05-09 10:20, or the day with dots, as 9.5.2026 10:20`,
        );
      if (value === null)
        throw errorAt(
          column,
          `"${text}" is not a date and time: write it as 2026-05-09 10:20:00 (with Z or +02:00 where it is not the time zone of --tz), or as 9.5.2026 10:20`,
        );
      return value;
    },
  };
};

/**
 * Read an input file in CSV whose first line names the columns: with commas, semicolons or tabs, as spreadsheets of
 * different countries write it.
 * @param name the file as messages name it
 * @param columns the columns that there may be; the first `required` of them must be there
 * @param besides `carry` takes further columns along, unless their name looks like a slip for a known one
 * @throws UserError with line and column where a heading is not known, twice or missing, or a line too long
 */
export const parseCsvFile = (
  text: string,
  name: string,
  columns: readonly string[],
  required: number,
  besides: 'refuse' | 'carry' = 'refuse',
): readonly CsvLine[] => {
  const dialect = dialectOf(text.replace(/^\uFEFF/, ''), columns);
  const [heading, ...rest] = recordsOf(text, name, dialect);
  if (heading === undefined)
    throw new UserError(`${name} is empty: its first line must name the columns (${columns.join(', ')})`);
  const names = heading.cells.map((cell) => cell.toLowerCase());
  if (!names.some((column) => columns.includes(column)))
    throw placed(name, heading.line, null, unknownHeadings(heading.cells, columns));
  names.forEach((column, i) => {
    const meant = besides === 'carry' && column.length >= SLIP_LETTERS ? closest(column, columns) : null;
    if (!columns.includes(column) && (besides === 'refuse' || column === '' || meant !== null))
      throw placed(
        name,
        heading.line,
        `${i + 1}`,
        `"${heading.cells[i]}" is not a column of this file${meant === null ? '' : `; did you mean "${meant}"`}: use ${columns.join(', ')}`,
      );
    if (names.indexOf(column) !== i)
      throw placed(name, heading.line, column, 'the column is there twice: keep one of them');
  });
  for (const column of columns.slice(0, required))
    if (!names.includes(column)) throw placed(name, heading.line, null, missing(column, heading.cells));
  return rest.map(({ cells, line }) => {
    if (cells.length > names.length)
      throw placed(
        name,
        line,
        `${names.length + 1}`,
        `the line has ${cells.length} cells and the heading ${names.length}: put text that holds a comma in double quotes`,
      );
    const cell = (column: string) => cells[names.indexOf(column)] ?? '';
    const errorAt = (column: string | null, what: string) => placed(name, line, column, what);
    return {
      line,
      cell,
      ...valuesOf(cell, errorAt, dialect),
      extra: Object.fromEntries(
        names.flatMap((column, i) =>
          columns.includes(column) ? [] : [[heading.cells[i]!, cells[i] ?? ''] as const],
        ),
      ),
      errorAt,
    };
  });
};

const recordsOf = (
  text: string,
  name: string,
  { delimiter, headingLine }: CsvDialect,
): { readonly cells: readonly string[]; readonly line: number }[] => {
  try {
    const found = parse(text, {
      bom: true,
      delimiter,
      from_line: headingLine,
      info: true,
      relax_column_count: true,
      skip_empty_lines: true,
      trim: true,
    }) as unknown as { record: string[]; info: { lines: number } }[];
    return found
      .map(({ record, info }) => ({ cells: record, line: info.lines }))
      .filter(({ cells }) => cells.some((cell) => cell !== ''));
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    throw placed(name, Number(error.lines ?? 1), null, `not readable as CSV (${error.message})`);
  }
};
