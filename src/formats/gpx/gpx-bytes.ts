import type { ByteCursor } from '../byte-cursor.js';

/** What a byte is: 1 may stand in a name, 2 may begin one, 4 is white space. */
export const KINDS = Uint8Array.from({ length: 256 }, (_, byte) => {
  const char = String.fromCharCode(byte);
  return (
    (/[A-Za-z0-9_.:-]/.test(char) ? 1 : 0) |
    (/[A-Za-z_]/.test(char) ? 2 : 0) |
    (/[ \t\r\n]/.test(char) ? 4 : 0)
  );
});

const encoder = new TextEncoder();

/** The bytes of ASCII text. */
export const asBytes = (text: string): Uint8Array => encoder.encode(text);

/** True where some bytes stand at a place. */
export const startsWith = (bytes: Uint8Array, at: number, what: Uint8Array): boolean => {
  for (let i = 0; i < what.length; i++) if (bytes[at + i] !== what[i]) return false;
  return true;
};

/** Past white space. */
export const skipSpace = (cursor: ByteCursor): void => {
  const { bytes } = cursor;
  let at = cursor.at;
  while (KINDS[bytes[at]!]! & 4) at++;
  cursor.at = at;
};

const POINT = asBytes('<trkpt');
export const POINT_LENGTH = POINT.length;

/** True where a track point begins at a place. */
export const beginsPoint = (bytes: Uint8Array, at: number): boolean =>
  startsWith(bytes, at, POINT) && !(KINDS[bytes[at + POINT_LENGTH]!]! & 1);
