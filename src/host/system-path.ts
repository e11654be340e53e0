/** A byte that is no part of UTF-8 stands in a name as the lone surrogate of this and the byte (as in Python's PEP 383). */
const ESCAPE = 0xdc00;

const LONE = /(?<![\ud800-\udbff])[\udc80-\udcff]/;

/** How many bytes the UTF-8 character at a place has; 0 where none stands there. */
const lengthAt = (bytes: Uint8Array, at: number): number => {
  const first = bytes[at]!;
  const length =
    first < 0x80 ? 1 : first < 0xc2 ? 0 : first < 0xe0 ? 2 : first < 0xf0 ? 3 : first < 0xf5 ? 4 : 0;
  if (length === 0 || at + length > bytes.length) return 0;
  try {
    new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes.subarray(at, at + length));
    return length;
  } catch {
    return 0;
  }
};

/** A file's name as text, whatever bytes it has: {@link systemPath} gives the same bytes again. */
export const pathOfBytes = (bytes: Uint8Array): string => {
  let text = '';
  let from = 0;
  const decoder = new TextDecoder('utf-8', { ignoreBOM: true });
  for (let at = 0; at < bytes.length; ) {
    const length = lengthAt(bytes, at);
    if (length === 0) {
      text += decoder.decode(bytes.subarray(from, at)) + String.fromCharCode(ESCAPE + bytes[at]!);
      from = at + 1;
    }
    at += Math.max(1, length);
  }
  return text + decoder.decode(bytes.subarray(from));
};

/** A name as the system takes it: as it stands, or in bytes where some of them are no UTF-8. */
export const systemPath = (path: string): string | Buffer => {
  if (!LONE.test(path)) return path;
  const parts: Buffer[] = [];
  let from = 0;
  for (let at = 0; at < path.length; at++) {
    const code = path.charCodeAt(at);
    const paired = at > 0 && (path.charCodeAt(at - 1) & 0xfc00) === 0xd800;
    if (paired || code < ESCAPE + 0x80 || code > ESCAPE + 0xff) continue;
    parts.push(Buffer.from(path.slice(from, at)), Buffer.of(code - ESCAPE));
    from = at + 1;
  }
  return Buffer.concat([...parts, Buffer.from(path.slice(from))]);
};
