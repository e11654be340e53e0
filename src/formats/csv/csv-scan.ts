import { asciiText } from '../byte-cursor.js';
import { parseDecimal } from '../decimal.js';
import { LogTooLarge, READ_BOUNDS } from '../log-too-large.js';
import type { CsvLayout } from './csv-layout.js';
import { type CsvRowScan, cellText, DATE, isBlank, NUMBER, PASSED_OVER, scanRows } from './csv-scan-rows.js';
import type { CsvSource } from './csv-source.js';
import { unixOfText } from './csv-time.js';

/** The columns that are to be read. */
export interface CsvScanColumns {
  readonly numbers: readonly number[];
  /** Columns that hold times, as numbers or as dates. */
  readonly times: readonly number[];
}

const [LF, CR, HASH] = [10, 13, 0x23];
const UTF8_MARK = [0xef, 0xbb, 0xbf];

/** Rows are first counted over so many bytes, and room is made for this much more than they promise. */
const PROBE_BYTES = 8192;
const ROOM = 1.2;

const isLineEnd = (byte: number | undefined): boolean => byte === LF || byte === CR || byte === undefined;

/** Behind the line end at a place; the place itself at the end of the bytes. */
const behindLineEnd = (bytes: Uint8Array, at: number): number =>
  bytes[at] === CR && bytes[at + 1] === LF ? at + 2 : at < bytes.length ? at + 1 : at;

const lineEndFrom = (bytes: Uint8Array, from: number): number => {
  let at = from;
  while (!isLineEnd(bytes[at])) at++;
  return at;
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
      if (isBlank(bytes, at, end) || bytes.subarray(at, end).includes(HASH)) return null;
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
  return Math.ceil((lines / Math.max(1, to - from)) * (bytes.length - from) * ROOM) + 16;
};

/** The place behind the last line end from a place on; the place itself where there is none. */
const behindLastLineEnd = (bytes: Uint8Array, from: number): number => {
  let end = bytes.length;
  while (end > from && bytes[end - 1] !== LF && bytes[end - 1] !== CR) end--;
  return end;
};

/** Twice the room, for the same values. */
const grow = (scan: CsvRowScan): void => {
  const { values, capacity, rowCount } = scan;
  scan.capacity = 2 * capacity;
  scan.values = new Float64Array(2 * values.length);
  for (let from = 0; from < values.length; from += capacity)
    scan.values.set(values.subarray(from, from + rowCount), 2 * from);
};

/** Read all rows of some bytes. @returns false where one is not regular */
const scanAll = (scan: CsvRowScan, bytes: Uint8Array, from: number): boolean => {
  scan.bytes = bytes;
  scan.at = from;
  while (scan.at < bytes.length) {
    if (scan.rowCount === scan.capacity) grow(scan);
    if (!scanRows(scan)) return false;
    if (scan.rowCount > READ_BOUNDS.samples) throw new LogTooLarge(`more than ${READ_BOUNDS.samples} rows`);
  }
  return true;
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
  for (const column of numbers) kinds[column] = NUMBER;
  for (const column of times) {
    const text = point(firstCells[column] ?? '');
    kinds[column] = Number.isNaN(parseDecimal(text)) ? DATE : NUMBER;
    if (kinds[column] === DATE && Number.isNaN(unixOfText(text))) return null;
  }
  const read = [...kinds.keys()].filter((column) => kinds[column] !== PASSED_OVER);
  const capacity = rowsAbout(bytes, start);
  const scan: CsvRowScan = {
    bytes,
    at: start,
    rowCount: 0,
    values: new Float64Array(read.length * capacity),
    capacity,
    kinds,
    slots: Int32Array.from(kinds, (_, column) => read.indexOf(column)),
    delimiter,
    decimalComma: layout.decimalComma,
  };
  // The scanner looks for no end of the bytes but for line ends, so a last row without one gets it.
  const end = behindLastLineEnd(bytes, start);
  const last = new Uint8Array(bytes.length - end + 1).fill(LF);
  last.set(bytes.subarray(end));
  if (!scanAll(scan, bytes.subarray(0, end), start) || !scanAll(scan, last, 0)) return null;
  const { rowCount } = scan;
  if (rowCount === 0) return null;
  const columnOf = (index: number): Float64Array => {
    const from = scan.slots[index]! * scan.capacity;
    return scan.values.subarray(from, from + rowCount);
  };
  const none = { count: 0, firstRow: 0 };
  return {
    rowCount,
    firstTime: ({ time }) => point(firstCells[time]!),
    numbers: columnOf,
    unixS: ({ time }) => columnOf(time),
    timesOfDayS: () => new Float64Array(rowCount).fill(Number.NaN),
    unreadable: () => none,
    ragged: none,
  };
};
