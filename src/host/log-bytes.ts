import { createReadStream, statSync } from 'node:fs';
import type { Readable } from 'node:stream';
import { type LogFault, logFault, type Warning } from '../recording/index.js';
import { takenRead } from './early-read.js';
import { isSpecial } from './plain-file.js';
import { systemPath } from './system-path.js';
import { systemReason } from './system-reason.js';
import { wholeFile } from './whole-file.js';

/** How large a log may be. */
export const LOG_BOUNDS = Object.freeze({
  /** Bytes in memory, unpacked too: ten hours at 200 Hz in CSV are 0.6 GB; a packed file may claim any size. */
  unpacked: 1024 ** 3,
});

/** The bytes of a log, and what was mended to get them. */
export interface LogBytes {
  readonly bytes: Uint8Array;
  /** The file's own bytes: packed where it is packed. */
  readonly raw: Uint8Array;
  readonly warnings: readonly Warning[];
}

/** The name that stands for standard input. */
export const STANDARD_INPUT = '-';

const isGzip = (bytes: Uint8Array): boolean => bytes[0] === 0x1f && bytes[1] === 0x8b;

/** What is wrong with a packed file, and what that means. */
const GZIP_WARNINGS = Object.freeze({
  cut: ['cut-off', 'the packed file is cut off; what could be unpacked is used, the end is missing'],
  damaged: [
    'gzip-damaged',
    'the packed file is damaged; what could be unpacked before the damage is used, what follows is missing: copy the file again',
  ],
  checksum: [
    'gzip-checksum',
    'the checksum of the packed file is wrong: it is damaged somewhere, so check its values or copy it again',
  ],
  trailing: ['gzip-trailing', 'what follows the packed log in the file is no part of it and is left out'],
} as const);

/** The bytes of a packed log; of a damaged one what it still holds. */
const unpackedLog = async (raw: Uint8Array, file: string): Promise<LogBytes | LogFault> => {
  const { unpacked } = await import('./unpacked.js');
  const held = await unpacked(raw, LOG_BOUNDS.unpacked);
  if (held === null)
    return logFault(
      file,
      'too-large',
      `the log is larger than ${LOG_BOUNDS.unpacked / 1024 ** 2} MB unpacked; cut it into outings`,
    );
  const { bytes, state } = held;
  if (bytes.length === 0)
    return logFault(file, 'bad-gzip', 'the file is packed with gzip and damaged; copy it again');
  if (state === 'whole') return { bytes, raw, warnings: [] };
  const [code, message] = GZIP_WARNINGS[state];
  return { bytes, raw, warnings: [{ code, file, where: null, message }] };
};

const collected = async (stream: Readable): Promise<Uint8Array | null> => {
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of stream) {
    const bytes = Buffer.from(chunk as Uint8Array);
    size += bytes.length;
    if (size > LOG_BOUNDS.unpacked) return null;
    chunks.push(bytes);
  }
  return Buffer.concat(chunks);
};

/** That a log is no file, in words. */
export const notPlain = (file: string): LogFault =>
  logFault(file, 'not-plain', 'it is a device, a socket or a pipe, not a log; name a file');

/**
 * The bytes of a log, unpacked where it is gzip; `-` is standard input.
 * @returns the bytes, or why there are none: it never throws
 */
export const logBytes = async (file: string, stdin: Readable): Promise<LogBytes | LogFault> => {
  const tooLarge = () =>
    logFault(
      file,
      'too-large',
      `the log is larger than ${LOG_BOUNDS.unpacked / 1024 ** 2} MB; cut it into outings`,
    );
  try {
    if (file !== STANDARD_INPUT && isSpecial(file) && !statSync(systemPath(file)).isFIFO())
      return notPlain(file);
    const bytes = file === STANDARD_INPUT ? await collected(stdin) : await fileBytes(file);
    if (bytes === null) return tooLarge();
    if (bytes.length === 0)
      return logFault(file, 'empty-file', 'the file is empty; copy it from the logger again');
    return isGzip(bytes) ? await unpackedLog(bytes, file) : { bytes, raw: bytes, warnings: [] };
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'EISDIR')
      return logFault(
        file,
        'is-folder',
        'it is a folder, not a log; name the logs in it, as in FOLDER/*.gpx',
      );
    return logFault(file, 'unreadable', `the log cannot be opened: ${systemReason(error)}`);
  }
};

const fileBytes = async (file: string): Promise<Uint8Array | null> => {
  const early = takenRead(file);
  if (early !== null) return early;
  const path = systemPath(file);
  const found = statSync(path);
  if (found.size > LOG_BOUNDS.unpacked) return null;
  // What a shell puts in the place of a command's output is a pipe; files that a system makes up state no size.
  if (found.isFIFO() || (found.isFile() && found.size === 0)) return collected(createReadStream(path));
  return wholeFile(path, found.size);
};
