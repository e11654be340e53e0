import { csvQuantity } from './csv-quantity.js';
import { csvRows } from './csv-rows.js';

/** How a CSV file is written, by its first lines. */
export interface CsvLayout {
  readonly delimiter: string;
  /** Names of the columns, `1`, `2`, … where no line names them; without empty names at the end. */
  readonly header: readonly string[];
  /** Rows before the first of the data, the header among them. */
  readonly skipRows: number;
  /** True where a line names the columns. */
  readonly named: boolean;
  /** True where numbers are written with a decimal comma. */
  readonly decimalComma: boolean;
}

const DELIMITERS = [',', ';', '\t', '|'] as const;

/** Lines at the head of a file in which its header is looked for: some loggers write notes above it. */
const HEAD_LINES = 40;

/** Columns beyond these are not looked at: no logger has so many. */
const MOST_COLUMNS = 500;

const COMMA_NUMBER = /^[+-]?\d*,\d+$/;
const POINT_NUMBER = /^[+-]?\d*\.\d+$/;

const hasDecimalComma = (rows: readonly (readonly string[])[]): boolean => {
  const cells = rows.flat();
  return (
    cells.filter((cell) => COMMA_NUMBER.test(cell)).length >
    cells.filter((cell) => POINT_NUMBER.test(cell)).length
  );
};

const withoutEmptyEnd = (cells: readonly string[]): readonly string[] => {
  let count = cells.length;
  while (count > 0 && cells[count - 1] === '') count--;
  return cells.slice(0, count);
};

/** Names with the units of a row below them, where that row holds nothing but units. */
const withUnitRow = (
  header: readonly string[],
  row: readonly string[] | undefined,
): readonly string[] | null => {
  if (row === undefined || row.some((cell) => /\d/.test(cell.replace(/[a-z/]\W?\d$/i, '')))) return null;
  const units = row.map((cell) => cell.replace(/^[([]|[)\]]$/g, ''));
  const joined = header.map((name, i) => ((units[i] ?? '') === '' ? name : `${name} (${units[i]})`));
  const known = joined.filter((name, i) => name !== header[i] && csvQuantity(name) !== null);
  return known.length >= 2 ? joined : null;
};

/**
 * Delimiter, header and decimal sign of a CSV file: the delimiter under which most cells of one row name a known
 * quantity, and that row.
 * @param head its first lines
 * @param known headers that the user has given a meaning
 */
export const csvLayout = (head: string, known: ReadonlySet<string>): CsvLayout => {
  const text = head.split(/\r\n|\n|\r/, HEAD_LINES).join('\n');
  const isKnown = (cell: string): boolean => known.has(cell) || csvQuantity(cell) !== null;
  let best = { delimiter: ',', headerRow: -1, count: 1, cells: 1 };
  const written = DELIMITERS.filter((delimiter) => text.includes(delimiter));
  const rowsBy = new Map(written.map((delimiter) => [delimiter as string, csvRows(text, delimiter)]));
  for (const [delimiter, all] of rowsBy)
    for (const [headerRow, whole] of all.entries()) {
      const row = whole.slice(0, MOST_COLUMNS);
      const count = row.filter(isKnown).length;
      if (count > best.count) best = { delimiter, headerRow, count, cells: row.length };
      else if (best.headerRow < 0 && row.length > best.cells)
        best = { ...best, delimiter, cells: row.length };
    }
  const { delimiter, headerRow } = best;
  const rows = (rowsBy.get(delimiter) ?? csvRows(text, delimiter)).map((row) => row.slice(0, MOST_COLUMNS));
  const named = headerRow >= 0;
  const own = named ? rows[headerRow]! : (rows[0] ?? []).map((_, i) => String(i + 1));
  const withUnits = named ? withUnitRow(own, rows[headerRow + 1]) : null;
  const skipRows = headerRow + 1 + (withUnits === null ? 0 : 1);
  return {
    delimiter,
    header: withoutEmptyEnd(withUnits ?? own),
    skipRows,
    named,
    decimalComma: delimiter !== ',' && hasDecimalComma(rows.slice(skipRows)),
  };
};
