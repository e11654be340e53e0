import { cleanText } from './clean-text.js';
import type { Cell } from './view.js';

/** A text that a spreadsheet would take for a formula. */
const FORMULA = /^[=+\-@\t\r]/;

/**
 * One cell of CSV (RFC 4180), harmless in a spreadsheet: text that starts with = + - @, a tab or a return gets
 * an apostrophe before it, and control characters go. Numbers stay numbers.
 */
export const csvCell = (value: Cell | undefined): string => {
  if (value === null || value === undefined) return '';
  if (typeof value !== 'string') return String(value);
  const clean = cleanText(value);
  const safe = FORMULA.test(value) || FORMULA.test(clean) ? `'${clean}` : clean;
  return /[",]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
};

/** CSV with one heading line. */
export const csvText = (keys: readonly string[], rows: readonly Readonly<Record<string, Cell>>[]): string =>
  [keys.map(csvCell), ...rows.map((row) => keys.map((key) => csvCell(row[key])))]
    .map((cells) => `${cells.join(',')}\n`)
    .join('');
