import { parseDecimal } from './decimal.js';

/** A place in bytes that a scanner moves on. */
export interface ByteCursor {
  readonly bytes: Uint8Array;
  at: number;
}

const [ZERO, NINE, POINT, COMMA, PLUS, MINUS] = [0x30, 0x39, 0x2e, 0x2c, 0x2b, 0x2d];
const [UPPER_E, LOWER_E] = [0x45, 0x65];

/** As many digits a double holds exactly, whatever they are. */
const EXACT_DIGITS = 15;

/** So many digits make a whole number below 2^30. */
const FIRST_DIGITS = 9;

/** Powers of ten that a double holds exactly; digits over one of them is the nearest double (Clinger 1990). */
const POWERS = Float64Array.from({ length: EXACT_DIGITS + 1 }, (_, power) => Number(`1e${power}`));

/** The ASCII text between two bytes. */
export const asciiText = (bytes: Uint8Array, from: number, to: number): string => {
  let text = '';
  for (let i = from; i < to; i++) text += String.fromCharCode(bytes[i]!);
  return text;
};

const isNumberByte = (byte: number): boolean =>
  (byte >= ZERO && byte <= NINE) ||
  byte === POINT ||
  byte === PLUS ||
  byte === MINUS ||
  byte === UPPER_E ||
  byte === LOWER_E;

/** A number of too many digits or with an exponent, by way of text. */
const longDecimal = (cursor: ByteCursor, from: number, decimalComma: boolean): number => {
  let to = from;
  while (isNumberByte(cursor.bytes[to]!) || (decimalComma && cursor.bytes[to] === COMMA)) to++;
  const text = asciiText(cursor.bytes, from, to);
  const value = parseDecimal(decimalComma ? text.replace(',', '.') : text);
  cursor.at = Number.isNaN(value) ? from : to;
  return value;
};

/**
 * The decimal number at the cursor, to the same bit as `parseDecimal` of its text; the cursor moves behind it.
 * @param decimalComma take a comma for a point, too
 * @returns NaN, and the cursor where it was, where no number stands there
 */
export const decimalAt = (cursor: ByteCursor, decimalComma = false): number => {
  const { bytes } = cursor;
  const from = cursor.at;
  let at = from;
  let byte = bytes[at]!;
  const negative = byte === MINUS;
  if (negative || byte === PLUS) byte = bytes[++at]!;
  const wholeFrom = at;
  // The first digits and the others apart: whole numbers that stay small are quick before this is compiled, too.
  let first = 0;
  let rest = 0;
  while (byte >= ZERO && byte <= NINE) {
    if (at - wholeFrom < FIRST_DIGITS) first = first * 10 + (byte - ZERO);
    else rest = rest * 10 + (byte - ZERO);
    byte = bytes[++at]!;
  }
  let digits = at - wholeFrom;
  let power = 0;
  if (byte === POINT || (decimalComma && byte === COMMA)) {
    byte = bytes[++at]!;
    const fractionFrom = at - digits;
    while (byte >= ZERO && byte <= NINE) {
      if (at - fractionFrom < FIRST_DIGITS) first = first * 10 + (byte - ZERO);
      else rest = rest * 10 + (byte - ZERO);
      byte = bytes[++at]!;
    }
    power = at - fractionFrom - digits;
    digits += power;
  }
  if (digits === 0) return Number.NaN;
  if (digits > EXACT_DIGITS || byte === LOWER_E || byte === UPPER_E)
    return longDecimal(cursor, from, decimalComma);
  cursor.at = at;
  const value = digits > FIRST_DIGITS ? first * POWERS[digits - FIRST_DIGITS]! + rest : first;
  const size = power === 0 ? value : value / POWERS[power]!;
  return negative ? -size : size;
};
