import { CsvError, parse } from 'csv-parse/sync';
import { closest } from '../units/closest.js';
import { UserError } from '../units/user-error.js';

/** One line of an input file in CSV: its cells by column name, and how to say what is wrong with it. */
export interface CsvLine {
  readonly line: number;
  /** The cell under a heading, trimmed; '' where the line is short or the column is not there. */
  readonly cell: (column: string) => string;
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

/**
 * Read an input file in CSV (comma, or semicolon where the heading has no comma) whose first line names the columns.
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
  const [heading, ...rest] = recordsOf(text, name);
  if (heading === undefined)
    throw new UserError(`${name} is empty: its first line must name the columns (${columns.join(', ')})`);
  const names = heading.cells.map((cell) => cell.toLowerCase());
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
    return {
      line,
      cell: (column) => cells[names.indexOf(column)] ?? '',
      extra: Object.fromEntries(
        names.flatMap((column, i) =>
          columns.includes(column) ? [] : [[heading.cells[i]!, cells[i] ?? ''] as const],
        ),
      ),
      errorAt: (column, what) => placed(name, line, column, what),
    };
  });
};

const recordsOf = (
  text: string,
  name: string,
): { readonly cells: readonly string[]; readonly line: number }[] => {
  const heading = /^.*$/m.exec(text)![0];
  const delimiter = !heading.includes(',') && heading.includes(';') ? ';' : ',';
  try {
    const found = parse(text, {
      bom: true,
      delimiter,
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
