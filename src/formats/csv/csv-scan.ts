import { asciiText, type ByteCursor, decimalAt } from '../byte-cursor.js';
import { zuluTimeAt } from '../byte-time.js';
import { parseDecimal } from '../decimal.js';
import type { CsvLayout } from './csv-layout.js';
import type { CsvSource } from './csv-source.js';
import { unixOfText } from './csv-time.js';

/** The columns that are to be read. */
export interface CsvScanColumns {
  readonly numbers: readonly number[];
  /** Columns that hold times, as numbers or as dates. */
  readonly times: readonly number[];
}

const [LF, CR, SPACE, TAB, QUOTE, HASH, SIGN_END] = [10, 13, 32, 9, 0x22, 0x23, 0x7e];
const UTF8_MARK = [0xef, 0xbb, 0xbf];

/** Rows are first counted over so many bytes, to make arrays of nearly the right length. */
const PROBE_BYTES = 65536;

/** What a cell is: passed over, a number, or a date. */
type CellKind = 0 | 1 | 2;

const isLineEnd = (byte: number | undefined): boolean => byte === LF || byte === CR || byte === undefined;

/** Behind the line end at a place; the place itself at the end of the bytes. */
const behindLineEnd = (bytes: Uint8Array, at: number): number =>
  bytes[at] === CR && bytes[at + 1] === LF ? at + 2 : at < bytes.length ? at + 1 : at;

const lineEndFrom = (bytes: Uint8Array, from: number): number => {
  let at = from;
  while (!isLineEnd(bytes[at])) at++;
  return at;
};

const isBlank = (byte: number | undefined): boolean => byte === SPACE || byte === TAB;

/** True where a row holds nothing but space, which csv-parse may or may not call empty. */
const blankUpTo = (bytes: Uint8Array, from: number, to: number): boolean => {
  for (let i = from; i < to; i++) if (!isBlank(bytes[i])) return false;
  return true;
};

/** True where each cell of a line is quoted as a whole or not at all, and none holds a delimiter. */
const isPlainlyQuoted = (line: string, delimiter: string): boolean =>
  line.split(delimiter).every((cell) => !cell.includes('"') || /^ *"[^"]*" *$/.test(cell));

/** Where the first data row begins; null where the rows before it are written in a way that makes that doubtful. */
const dataStart = (bytes: Uint8Array, { skipRows, delimiter }: CsvLayout): number | null => {
  let at = UTF8_MARK.every((byte, i) => bytes[i] === byte) ? UTF8_MARK.length : 0;
  for (let skipped = 0; skipped < skipRows; ) {
    if (at >= bytes.length) return null;
    const end = lineEndFrom(bytes, at);
    if (end > at && bytes[at] !== HASH) {
      if (blankUpTo(bytes, at, end) || bytes.subarray(at, end).includes(HASH)) return null;
      if (!isPlainlyQuoted(asciiText(bytes, at, end), delimiter)) return null;
      skipped++;
    }
    at = behindLineEnd(bytes, end);
  }
  return at;
};

const rowsAbout = (bytes: Uint8Array, from: number): number => {
  const to = Math.min(bytes.length, from + PROBE_BYTES);
  let lines = 1;
  for (let i = from; i < to; i++) if (bytes[i] === LF || bytes[i] === CR) lines++;
  return Math.ceil((lines / Math.max(1, to - from)) * (bytes.length - from) * 1.02) + 16;
};

/** A cell as text; null where it is not plain. */
const cellText = (bytes: Uint8Array, from: number, delimiter: number): string | null => {
  let to = from;
  for (let byte = bytes[to]; !isLineEnd(byte) && byte !== delimiter; byte = bytes[++to])
    if (byte! > SIGN_END || byte === QUOTE || byte === HASH) return null;
  return asciiText(bytes, from, to).trim();
};

/**
 * The rows of a regular CSV file, in one pass over its bytes: cells of numbers or of dates, no quotes, no
 * comments, rows of one length. It gives what {@link csvTextSource} gives, to the bit, or declines.
 * @returns null where it declines
 */
export const csvByteSource = (
  bytes: Uint8Array,
  layout: CsvLayout,
  { numbers, times }: CsvScanColumns,
): CsvSource | null => {
  const delimiter = layout.delimiter.charCodeAt(0);
  const width = layout.header.length;
  const start = dataStart(bytes, layout);
  if (start === null || start >= bytes.length) return null;
  const point = layout.decimalComma ? (text: string) => text.replace(',', '.') : (text: string) => text;

  const firstCells: (string | null)[] = [];
  for (let at = start; firstCells.length < width; at++) {
    firstCells.push(cellText(bytes, at, delimiter));
    while (!isLineEnd(bytes[at]) && bytes[at] !== delimiter) at++;
    if (isLineEnd(bytes[at])) break;
  }
  const kinds = new Uint8Array(width);
  for (const column of numbers) kinds[column] = 1;
  for (const column of times) {
    const text = point(firstCells[column] ?? '');
    kinds[column] = Number.isNaN(parseDecimal(text)) ? 2 : 1;
    if (kinds[column] === 2 && Number.isNaN(unixOfText(text))) return null;
  }
  let capacity = rowsAbout(bytes, start);
  const columns = Array.from(kinds, (kind) => (kind === 0 ? null : new Float64Array(capacity)));
  const cursor: ByteCursor = { bytes, at: start };
  let row = 0;

  /** A cell of a date in another form than the usual. */
  const dateOf = (from: number): number => {
    const text = cellText(bytes, from, delimiter);
    if (text === null) return Number.NaN;
    while (!isLineEnd(bytes[cursor.at]) && bytes[cursor.at] !== delimiter) cursor.at++;
    return text === '' ? Number.NaN : unixOfText(point(text));
  };

  while (cursor.at < bytes.length) {
    const first = bytes[cursor.at]!;
    if (isLineEnd(first)) {
      cursor.at = behindLineEnd(bytes, cursor.at);
      continue;
    }
    if (row === capacity) {
      capacity *= 2;
      for (const [i, column] of columns.entries())
        if (column !== null) {
          columns[i] = new Float64Array(capacity);
          columns[i]!.set(column);
        }
    }
    const rowStart = cursor.at;
    for (let cell = 0; ; cell++) {
      const kind = (cell < width ? kinds[cell] : 1) as CellKind;
      let value = Number.NaN;
      if (kind === 0) {
        for (let byte = bytes[cursor.at]; byte !== delimiter && !isLineEnd(byte); byte = bytes[++cursor.at])
          if (byte === QUOTE || byte === HASH) return null;
      } else {
        while (bytes[cursor.at] === SPACE) cursor.at++;
        const from = cursor.at;
        value = kind === 1 ? decimalAt(cursor, layout.decimalComma) : zuluTimeAt(cursor);
        if (kind === 2 && Number.isNaN(value)) value = dateOf(from);
        while (bytes[cursor.at] === SPACE) cursor.at++;
      }
      if (cell < width) {
        if (kind !== 0) columns[cell]![row] = value;
      } else if (!Number.isNaN(value)) return null;
      const byte = bytes[cursor.at];
      if (byte === delimiter) cursor.at++;
      else if (isLineEnd(byte)) {
        if (cell < width - 1) return null;
        break;
      } else return null;
    }
    if (isBlank(bytes[rowStart]) && blankUpTo(bytes, rowStart, cursor.at)) return null;
    cursor.at = behindLineEnd(bytes, cursor.at);
    row++;
  }
  if (row === 0) return null;
  const columnOf = (index: number): Float64Array => columns[index]!.subarray(0, row);
  const none = { count: 0, firstRow: 0 };
  return {
    rowCount: row,
    firstTime: ({ time }) => point(firstCells[time]!),
    numbers: columnOf,
    unixS: ({ time }) => columnOf(time),
    timesOfDayS: () => new Float64Array(row).fill(Number.NaN),
    unreadable: () => none,
    ragged: none,
  };
};
