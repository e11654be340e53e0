import { formatClock } from '../units/clock-time.js';
import { cleanText } from './clean-text.js';
import type { Cell } from './view.js';

/**
 * Where a spreadsheet would begin a formula: at the start of a text, and behind a semicolon, which divides cells where
 * the comma is a decimal one. The full-width signs count for the plain ones in some.
 */
const FORMULA = /(^|;)(["'\s]*)(?=[=+\-@\uff1d\uff0b\uff0d\uff20])/g;

/**
 * One cell of CSV (RFC 4180), harmless in a spreadsheet: text that starts with = + - @, a tab or a return gets
 * an apostrophe before it, also behind a semicolon within it, and control characters go. Numbers stay numbers.
 */
export const csvCell = (value: Cell | undefined, delimiter = ','): string => {
  if (value === null || value === undefined) return '';
  if (typeof value !== 'string') return String(value);
  const clean = cleanText(value);
  const marked = clean.replace(FORMULA, "$1'$2");
  const safe = /^[\t\r]/.test(value) && marked === clean ? `'${clean}` : marked;
  return quoted(safe, delimiter);
};

const quoted = (text: string, delimiter: string): string =>
  text.includes('"') || text.includes(delimiter) ? `"${text.replaceAll('"', '""')}"` : text;

/** How a spreadsheet wants its cells. */
export interface Dialect {
  readonly decimal: 'point' | 'comma';
  /** `clock`: lengths of time also as minutes and seconds, beside their seconds. */
  readonly times: 'seconds' | 'clock';
}

/** CSV as scripts read it. */
export const PLAIN_DIALECT: Dialect = { decimal: 'point', times: 'seconds' };

/** Keys in seconds that people do not read as minutes and seconds: places on a clock, sds, short times, differences. */
const IN_SECONDS = /(?:^|_)(?:at|sd|drive|to_rate|margin|gap|handicap|penalty|change|worth|drift)_/;

const isClocked = (key: string): boolean => /_s(?:_per_500m)?$/.test(key) && !IN_SECONDS.test(key);

/** The key of a length of time as minutes and seconds: `duration_clock` of `duration_s`. */
const clockKey = (key: string): string => key.replace(/_s(_per_500m)?$/, '_clock$1');

interface Table {
  readonly keys: readonly string[];
  readonly rows: readonly Readonly<Record<string, Cell>>[];
}

const withClocks = ({ keys, rows }: Table): Table => ({
  keys: keys.flatMap((key) => (isClocked(key) ? [key, clockKey(key)] : [key])),
  rows: rows.map((row) => ({
    ...row,
    ...Object.fromEntries(
      Object.entries(row).flatMap(([key, value]) =>
        isClocked(key) && typeof value === 'number' ? [[clockKey(key), formatClock(value, 1)]] : [],
      ),
    ),
  })),
});

/** A number or a length of time with a decimal comma; other text as it is. */
const withComma = (value: Cell | undefined, key: string): Cell | undefined =>
  typeof value === 'number'
    ? String(value).replace('.', ',')
    : typeof value === 'string' && /_clock(?:_|$)/.test(key)
      ? value.replace('.', ',')
      : value;

/** A line of cells. A number that became text by its comma is no formula. */
const written = (cells: readonly (Cell | undefined)[], delimiter: string): string =>
  `${cells.map((cell) => (typeof cell === 'string' && /^-?\d+(?:,\d+)?$/.test(cell) ? quoted(cell, delimiter) : csvCell(cell, delimiter))).join(delimiter)}\n`;

/** CSV with one heading line; with decimal commas, semicolons stand between the cells. */
export const csvText = (
  keys: readonly string[],
  rows: readonly Readonly<Record<string, Cell>>[],
  { decimal, times }: Dialect = PLAIN_DIALECT,
  format: 'csv' | 'tsv' = 'csv',
): string => {
  const table = times === 'clock' ? withClocks({ keys, rows }) : { keys, rows };
  const delimiter = format === 'tsv' ? '\t' : decimal === 'comma' ? ';' : ',';
  const value = (row: Readonly<Record<string, Cell>>, key: string) =>
    decimal === 'comma' ? withComma(row[key], key) : row[key];
  const lines = [table.keys, ...table.rows.map((row) => table.keys.map((key) => value(row, key)))];
  // Spreadsheets take a file without this mark for one in the machine's old code page.
  const mark = decimal === 'comma' ? '\uFEFF' : '';
  return `${mark}${lines.map((cells) => written(cells, delimiter)).join('')}`;
};
