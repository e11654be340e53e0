import { asciiText, type ByteCursor, decimalAt } from '../byte-cursor.js';
import { zuluTimeAt } from '../byte-time.js';
import { unixOfText } from './csv-time.js';

/** What a cell is read as. */
export const PASSED_OVER = 0;
export const NUMBER = 1;
export const DATE = 2;

/** Rows as they are scanned: where in the bytes, into which array. */
export interface CsvRowScan {
  /** Rows, each with a line end behind it. */
  bytes: Uint8Array;
  /** Place of the next row. */
  at: number;
  /** Rows read so far. */
  rowCount: number;
  /** Cells of all rows, a column after the other, each with room for so many rows. */
  values: Float64Array;
  capacity: number;
  /** What each cell of a row is, and which column of `values` takes it. */
  readonly kinds: Uint8Array;
  readonly slots: Int32Array;
  readonly delimiter: number;
  /** A comma is taken for a point, too. */
  readonly decimalComma: boolean;
}

// One constant a line: the bundler puts their values into the code.
const LF = 10;
const CR = 13;
const SPACE = 32;
const TAB = 9;
const QUOTE = 0x22;
const HASH = 0x23;
const SIGN_END = 0x7e;
const ZERO = 0x30;
const POINT = 0x2e;
const COMMA = 0x2c;
const PLUS = 0x2b;
const MINUS = 0x2d;
const UPPER_E = 0x45;
const LOWER_E = 0x65;

/** Digits of a number that a double holds exactly, whatever they are. */
const EXACT_DIGITS = 15;
/** Digits behind the point that a 32-bit integer holds. */
const FRACTION_DIGITS = 9;
const POWERS = Float64Array.from({ length: FRACTION_DIGITS + 1 }, (_, power) => Number(`1e${power}`));

/** True where a stretch of bytes holds nothing but space, which csv-parse may or may not call an empty row. */
export const isBlank = (bytes: Uint8Array, from: number, to: number): boolean => {
  for (let i = from; i < to; i++) if (bytes[i] !== SPACE && bytes[i] !== TAB) return false;
  return true;
};

/** A cell as text; null where it is not plain. */
export const cellText = (bytes: Uint8Array, from: number, delimiter: number): string | null => {
  let to = from;
  for (let byte = bytes[to]; byte !== LF && byte !== CR && byte !== delimiter; byte = bytes[++to]) {
    if (byte === undefined) break;
    if (byte > SIGN_END || byte === QUOTE || byte === HASH) return null;
  }
  return asciiText(bytes, from, to).trim();
};

/** The place behind a cell that is passed over; -1 where it is not plain. */
const behindCell = (bytes: Uint8Array, from: number, delimiter: number): number => {
  let at = from;
  for (let byte = bytes[at]!; byte !== LF && byte !== CR && byte !== delimiter; byte = bytes[++at]!)
    if (byte === QUOTE || byte === HASH) return -1;
  return at;
};

/** Unix time of a date at the cursor in any form, s; NaN, and the cursor somewhere, where there is none. */
const dateAt = (cursor: ByteCursor, delimiter: number, decimalComma: boolean): number => {
  const from = cursor.at;
  const usual = zuluTimeAt(cursor);
  if (!Number.isNaN(usual)) return usual;
  const text = cellText(cursor.bytes, from, delimiter);
  if (text === null) return Number.NaN;
  cursor.at = behindCell(cursor.bytes, from, delimiter);
  return text === '' ? Number.NaN : unixOfText(decimalComma ? text.replace(',', '.') : text);
};

/**
 * Read rows until the bytes end or the array is full. All of it is one function with plain variables: the engine
 * has it compiled while the first rows are read.
 * @returns false where a row is not regular
 */
export const scanRows = (scan: CsvRowScan): boolean => {
  const { bytes, values, capacity, kinds, slots, delimiter, decimalComma } = scan;
  const decimal = decimalComma ? COMMA : POINT;
  const width = kinds.length;
  const end = bytes.length;
  const cursor: ByteCursor = { bytes, at: 0 };
  let at = scan.at;
  let row = scan.rowCount;
  while (at < end) {
    let byte = bytes[at]!;
    if (byte === LF || byte === CR) {
      at++;
      continue;
    }
    if (row === capacity) break;
    const rowFrom = at;
    for (let cell = 0; ; cell++) {
      if (cell === width) {
        // Cells beyond the header's are empty, or the row is none.
        for (; byte === SPACE || byte === delimiter; byte = bytes[at]!) at++;
        if (byte !== LF && byte !== CR) return false;
        break;
      }
      const kind = kinds[cell]!;
      if (kind === PASSED_OVER) {
        at = behindCell(bytes, at, delimiter);
        if (at < 0) return false;
        byte = bytes[at]!;
      } else {
        while (byte === SPACE) byte = bytes[++at]!;
        let value = 0;
        if (kind === NUMBER) {
          // As decimalAt reads it, without a call for what is usual.
          const from = at;
          // 1 for a minus, else 0: signs follow no rule that a branch could be predicted by.
          const minus = ((byte ^ MINUS) - 1) >>> 31;
          if (byte === PLUS) at++;
          at += minus;
          byte = bytes[at]!;
          let digitsFrom = at;
          let digit = byte ^ ZERO;
          while (digit <= 9) {
            value = value * 10 + digit;
            byte = bytes[++at]!;
            digit = byte ^ ZERO;
          }
          let digits = at - digitsFrom;
          let behindPoint = 0;
          if (byte === POINT || byte === decimal) {
            byte = bytes[++at]!;
            digitsFrom = at;
            digit = byte ^ ZERO;
            let fraction = 0;
            while (digit <= 9) {
              fraction = (Math.imul(fraction, 10) + digit) | 0;
              byte = bytes[++at]!;
              digit = byte ^ ZERO;
            }
            behindPoint = at - digitsFrom;
            digits += behindPoint;
            if (behindPoint <= FRACTION_DIGITS) {
              const power = POWERS[behindPoint]!;
              value = (value * power + fraction) / power;
            }
          }
          value *= 1 - 2 * minus;
          const isLong = digits > EXACT_DIGITS || behindPoint > FRACTION_DIGITS;
          if (digits === 0 || isLong || byte === LOWER_E || byte === UPPER_E) {
            cursor.at = from;
            value = decimalAt(cursor, decimalComma);
            at = cursor.at;
          }
        } else {
          cursor.at = at;
          value = dateAt(cursor, delimiter, decimalComma);
          at = cursor.at;
        }
        for (byte = bytes[at]!; byte === SPACE; byte = bytes[++at]!);
        values[slots[cell]! * capacity + row] = value;
      }
      if (byte === delimiter) {
        byte = bytes[++at]!;
        continue;
      }
      if (cell < width - 1 || (byte !== LF && byte !== CR)) return false;
      break;
    }
    const first = bytes[rowFrom];
    if ((first === SPACE || first === TAB) && isBlank(bytes, rowFrom, at)) return false;
    row++;
  }
  scan.at = at;
  scan.rowCount = row;
  return true;
};
