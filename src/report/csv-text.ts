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
export const csvCell = (value: Cell | undefined): string => {
  if (value === null || value === undefined) return '';
  if (typeof value !== 'string') return String(value);
  const clean = cleanText(value);
  const marked = clean.replace(FORMULA, "$1'$2");
  const safe = /^[\t\r]/.test(value) && marked === clean ? `'${clean}` : marked;
  return /[",]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
};

/** CSV with one heading line. */
export const csvText = (keys: readonly string[], rows: readonly Readonly<Record<string, Cell>>[]): string =>
  [keys.map(csvCell), ...rows.map((row) => keys.map((key) => csvCell(row[key])))]
    .map((cells) => `${cells.join(',')}\n`)
    .join('');
