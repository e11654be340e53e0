import { logHead } from './log-text.js';

/** Share of control bytes in a file's head above which it is binary: text has none but line ends and tabs. */
const BINARY_SHARE = 0.02;
const HEAD_BYTES = 4096;

const MAGIC: readonly (readonly [bytes: readonly number[], message: string])[] = [
  [[0x50, 0x4b, 3, 4], 'the file is a ZIP archive; unpack it and give the log that is in it'],
  [[0x1f, 0x8b], 'the file is packed more than once; unpack it and give the log that is in it'],
  [[0x25, 0x50, 0x44, 0x46], 'the file is a PDF document, not a log; export the outing as GPX, TCX or FIT'],
];

const TEXTS: readonly (readonly [RegExp, string])[] = [
  [
    /<!doctype html|<html[\s>]/i,
    'the file is a web page, not a log: the download went wrong; export the outing anew',
  ],
  [
    /<(?:[A-Za-z_][\w.-]*:)?kml[\s>]/,
    'the file is KML, which seldom holds times; export the outing as GPX, TCX or FIT',
  ],
  [/^\s*[{[]/, 'the file is JSON, not a log; export the outing as GPX, TCX, FIT or CSV'],
];

const isBinary = (bytes: Uint8Array): boolean => {
  const head = bytes.subarray(0, HEAD_BYTES);
  const control = head.reduce((sum, byte) => sum + (byte < 0x20 && ![9, 10, 13].includes(byte) ? 1 : 0), 0);
  return control > head.length * BINARY_SHARE;
};

/** What a file is that no reader knows, and what to do, in words; null where it cannot be known. */
export const foreignFormat = (bytes: Uint8Array): string | null => {
  const magic = MAGIC.find(([start]) => start.every((byte, i) => bytes[i] === byte));
  if (magic !== undefined) return magic[1];
  if (isBinary(bytes))
    return "the file is binary and not FIT; where it is a receiver's own, convert it to GPX, or set the receiver to write NMEA";
  const head = logHead(bytes);
  return TEXTS.find(([pattern]) => pattern.test(head))?.[1] ?? null;
};
