import { parse } from 'csv-parse/sync';
import { csvQuantity } from './csv-quantity.js';

/** The cells of a CSV file, split. */
export interface CsvSheet {
  readonly header: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** Line of the file, from 1, on which the header stands; 0 where there is none. */
  readonly headerLine: number;
  readonly decimalComma: boolean;
}

const DELIMITERS = [',', ';', '\t', '|'] as const;

/** Lines at the head of a file in which its header is looked for: some loggers write notes above it. */
const HEAD_LINES = 40;

const OPTIONS = {
  relax_column_count: true,
  relax_quotes: true,
  skip_empty_lines: true,
  trim: true,
  comment: '#',
  comment_no_infix: true,
  bom: true,
} as const;

/** Rows of cells. Where quotes do not match, they are taken as they stand, so that no row is lost to one. */
const cellsOf = (text: string, delimiter: string): string[][] => {
  try {
    return parse(text, { ...OPTIONS, delimiter });
  } catch {
    return parse(text, { ...OPTIONS, delimiter, quote: false });
  }
};

const knownCount = (cells: readonly string[], known: ReadonlySet<string>): number =>
  cells.filter((cell) => known.has(cell.trim()) || csvQuantity(cell) !== null).length;

/** The layout of a CSV file, by its first lines. */
export interface CsvLayout {
  readonly delimiter: string;
  /** Rows before the header; null where no row names two quantities. */
  readonly headerRow: number | null;
}

/**
 * Delimiter and header of a CSV file: the pair under which most cells of one row name a known quantity.
 * @param known headers that the user has given a meaning
 */
export const csvLayout = (text: string, known: ReadonlySet<string>): CsvLayout => {
  const head = text.split(/\r\n|\n|\r/, HEAD_LINES).join('\n');
  let best = { delimiter: ',', headerRow: null as number | null, count: 1, cells: 1 };
  for (const delimiter of DELIMITERS)
    for (const [row, cells] of cellsOf(head, delimiter).entries()) {
      const count = knownCount(cells, known);
      if (count > best.count) best = { delimiter, headerRow: row, count, cells: cells.length };
      else if (best.headerRow === null && cells.length > best.cells)
        best = { ...best, delimiter, cells: cells.length };
    }
  return best;
};

const COMMA_NUMBER = /^[+-]?\d*,\d+$/;
const POINT_NUMBER = /^[+-]?\d*\.\d+$/;

/** True where numbers are written with a decimal comma. */
const hasDecimalComma = (rows: readonly (readonly string[])[]): boolean => {
  let [comma, point] = [0, 0];
  for (const row of rows.slice(0, HEAD_LINES))
    for (const cell of row)
      if (COMMA_NUMBER.test(cell)) comma++;
      else if (POINT_NUMBER.test(cell)) point++;
  return comma > point;
};

/** All cells of a CSV file by a layout. */
export const csvSheet = (text: string, { delimiter, headerRow }: CsvLayout): CsvSheet => {
  const all = cellsOf(text, delimiter);
  const rows = headerRow === null ? all : all.slice(headerRow + 1);
  const header = headerRow === null ? (all[0] ?? []).map((_, i) => String(i + 1)) : all[headerRow]!;
  return {
    header,
    rows,
    headerLine: headerRow === null ? 0 : headerRow + 1,
    decimalComma: delimiter !== ',' && hasDecimalComma(rows),
  };
};
