import { parseDecimal } from '../decimal.js';
import type { CsvLayout } from './csv-layout.js';
import { csvRows } from './csv-rows.js';
import { timeOfDayS, unixOfText } from './csv-time.js';

/** A column of times: as text, one a row, or from two columns that hold the date and the time of day. */
export interface TimeColumns {
  readonly time: number;
  /** Null where the date stands with the time, or nowhere. */
  readonly date: number | null;
}

/** The rows of a CSV file, by columns, however they were read. */
export interface CsvSource {
  readonly rowCount: number;
  /** The first cell of these columns that is not empty; an empty string where all are. */
  readonly firstTime: (columns: TimeColumns) => string;
  /** Numbers of a column; NaN where a cell is empty or no number. */
  readonly numbers: (column: number) => Float64Array;
  /** Unix time of each row, s; NaN where there is none. */
  readonly unixS: (columns: TimeColumns) => Float64Array;
  /** Seconds since midnight of each row; NaN where there are none. */
  readonly timesOfDayS: (columns: TimeColumns) => Float64Array;
  /** Cells of a column that are neither numbers nor empty: how many, and the row of the first, from 1. */
  readonly unreadable: (column: number) => { readonly count: number; readonly firstRow: number };
  /** Rows left out because they have fewer or more cells than the header: how many, and the first, from 1. */
  readonly ragged: { readonly count: number; readonly firstRow: number };
}

/** What loggers write where they have no value. */
export const MISSING = /^(?:|nan|null|none|na|n\/a|-|--|undefined)$/i;

/** A share of rows that are shorter than the header above which that is the logger's habit, not damage. */
const SHORT_ROWS_HABIT = 0.1;

/** The rows of CSV text by csv-parse: any quotes, comments and spaces. */
export const csvTextSource = (text: string, layout: CsvLayout): CsvSource => {
  const all = csvRows(text, layout.delimiter).slice(layout.skipRows);
  const width = layout.header.length;
  const isLong = (row: readonly string[]): boolean =>
    row.length > width && row.slice(width).some((cell) => cell !== '');
  const isShort = (row: readonly string[]): boolean => row.length < width;
  const shortIsHabit = all.filter(isShort).length > all.length * SHORT_ROWS_HABIT;
  const isRagged = (row: readonly string[]): boolean => isLong(row) || (!shortIsHabit && isShort(row));
  const rows = all.filter((row) => !isRagged(row));
  const point = layout.decimalComma ? (cell: string) => cell.replace(',', '.') : (cell: string) => cell;
  const number = (cell: string): number => parseDecimal(point(cell));
  const cells = (column: number): string[] => rows.map((row) => row[column] ?? '');
  const times = ({ time, date }: TimeColumns): string[] =>
    date === null ? cells(time) : rows.map((row) => `${row[date] ?? ''} ${row[time] ?? ''}`.trim());
  return {
    rowCount: rows.length,
    firstTime: (columns) => point(times(columns).find((text) => text !== '') ?? ''),
    numbers: (column) => Float64Array.from(cells(column), number),
    unixS: (columns) => Float64Array.from(times(columns), (text) => unixOfText(point(text))),
    timesOfDayS: (columns) => Float64Array.from(times(columns), (text) => timeOfDayS(point(text))),
    unreadable: (column) => {
      const bad = (cell: string): boolean => !MISSING.test(cell) && Number.isNaN(number(cell));
      const texts = cells(column);
      return { count: texts.filter(bad).length, firstRow: texts.findIndex(bad) + 1 };
    },
    ragged: { count: all.length - rows.length, firstRow: all.findIndex(isRagged) + 1 },
  };
};
