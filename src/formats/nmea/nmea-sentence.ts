/** One sentence as it stands in the log. */
export interface NmeaSentence {
  /** The three letters after the talker: `RMC`. */
  readonly type: string;
  /** Fields between the commas, the address left out: field 1 of the standard is index 0. */
  readonly fields: readonly string[];
  /** `right` or `wrong` where a checksum stands, else `absent`. */
  readonly checksum: 'right' | 'wrong' | 'absent';
  /** Line of the log, from 1. */
  readonly line: number;
}

/** Longest sentence that is looked at, characters; the standard allows 82, some receivers write more digits. */
const LONGEST = 160;

const [DOLLAR, BANG, STAR, NEWLINE, FIRST_PRINTABLE, LAST_PRINTABLE] = [0x24, 0x21, 0x2a, 0x0a, 0x20, 0x7e];
const WANTED = /^[A-Z]{2}(RMC|GGA|VTG|ZDA)$/;

const hexDigit = (byte: number | undefined): number => {
  if (byte === undefined) return Number.NaN;
  if (byte >= 0x30 && byte <= 0x39) return byte - 0x30;
  const upper = byte & ~0x20;
  return upper >= 0x41 && upper <= 0x46 ? upper - 0x37 : Number.NaN;
};

/**
 * Checksum of a sentence: the exclusive or of all bytes between `$` and `*` (NMEA 0183).
 * @example nmeaChecksum(new TextEncoder().encode('GPGLL'), 0, 5)
 */
export const nmeaChecksum = (bytes: Uint8Array, from: number, to: number): number => {
  let sum = 0;
  for (let i = from; i < to; i++) sum ^= bytes[i]!;
  return sum;
};

/**
 * Hand every RMC, GGA, VTG and ZDA sentence of any talker to `visit`; binary, AIS and comments in between are
 * passed over. A sentence that another interrupts is dropped, and of one that the end of the file cuts off the
 * last field is, since it may be half a number.
 */
export const walkNmea = (bytes: Uint8Array, visit: (sentence: NmeaSentence) => void): void => {
  let line = 1;
  let at = 0;
  while (at < bytes.length) {
    const byte = bytes[at++]!;
    if (byte === NEWLINE) line++;
    if (byte !== DOLLAR) continue;
    const limit = Math.min(bytes.length, at + LONGEST);
    let end = at;
    while (
      end < limit &&
      bytes[end]! >= FIRST_PRINTABLE &&
      bytes[end]! <= LAST_PRINTABLE &&
      bytes[end] !== DOLLAR &&
      bytes[end] !== BANG &&
      bytes[end] !== STAR
    )
      end++;
    const sum = bytes[end] === STAR ? hexDigit(bytes[end + 1]) * 16 + hexDigit(bytes[end + 2]) : Number.NaN;
    const fileEnds = end === bytes.length || (bytes[end] === STAR && Number.isNaN(sum));
    const lineEnds = bytes[end] === NEWLINE || bytes[end] === 0x0d;
    if (Number.isFinite(sum) || lineEnds || fileEnds) {
      const [address, ...fields] = String.fromCharCode(...bytes.subarray(at, end)).split(',');
      const type = WANTED.exec(address!)?.[1];
      if (type !== undefined) {
        if (end === bytes.length) fields.pop();
        const right = nmeaChecksum(bytes, at, end) === sum;
        visit({ type, fields, line, checksum: Number.isNaN(sum) ? 'absent' : right ? 'right' : 'wrong' });
      }
    }
    at = end;
  }
};
