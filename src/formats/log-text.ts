import { LogTooLarge } from './log-too-large.js';

const UTF16_PROBE_BYTES = 64;

/** Encoding by byte-order mark, else by where the zero bytes of the first characters stand. */
const encodingOf = (bytes: Uint8Array): 'utf-8' | 'utf-16le' | 'utf-16be' => {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le';
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'utf-16be';
  let [even, odd] = [0, 0];
  const end = Math.min(bytes.length, UTF16_PROBE_BYTES) & ~1;
  for (let i = 0; i < end; i += 2) {
    if (bytes[i] === 0) even++;
    if (bytes[i + 1] === 0) odd++;
  }
  if (end >= 8 && odd > end / 4 && even === 0) return 'utf-16le';
  if (end >= 8 && even > end / 4 && odd === 0) return 'utf-16be';
  return 'utf-8';
};

/**
 * Text of a log: UTF-8, or UTF-16 of either order, with or without a byte-order mark. Bytes that are no text
 * become U+FFFD.
 * @param mostBytes how many bytes what is done with the text can take
 * @throws LogTooLarge beyond that
 */
export const logText = (bytes: Uint8Array, mostBytes: number): string => {
  if (bytes.length > mostBytes) throw new LogTooLarge(`${bytes.length} bytes of text`);
  return new TextDecoder(encodingOf(bytes)).decode(bytes);
};

/** The first characters of a log, for telling formats apart. */
export const logHead = (bytes: Uint8Array, byteCount = 4096): string => {
  const encoding = encodingOf(bytes);
  return new TextDecoder(encoding).decode(bytes.subarray(0, byteCount));
};
