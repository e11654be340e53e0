import { createReadStream } from 'node:fs';
import { readFile, stat } from 'node:fs/promises';
import type { Readable } from 'node:stream';
import { constants, gunzip } from 'node:zlib';
import { type LogFault, logFault, type Warning } from '../recording/index.js';
import { systemReason } from './system-reason.js';

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

const unpacked = (bytes: Uint8Array, file: string): Promise<LogBytes | LogFault> =>
  new Promise((resolve) => {
    gunzip(bytes, { maxOutputLength: LOG_BOUNDS.unpacked }, (error, whole) => {
      if (error === null) return resolve({ bytes: whole, raw: bytes, warnings: [] });
      const { code } = error as NodeJS.ErrnoException;
      if (code === 'ERR_BUFFER_TOO_LARGE')
        return resolve(
          logFault(
            file,
            'too-large',
            `the log is larger than ${LOG_BOUNDS.unpacked / 1024 ** 2} MB unpacked; cut it into outings`,
          ),
        );
      resolve(cutGzip(bytes, file));
    });
  });

const cutWarning = (file: string): Warning => ({
  code: 'cut-off',
  file,
  where: null,
  message: 'the packed file is cut off; what could be unpacked is used, the end is missing',
});

/** What a cut gzip file still holds; a damaged one is a fault. */
const cutGzip = (bytes: Uint8Array, file: string): Promise<LogBytes | LogFault> =>
  new Promise((resolve) => {
    gunzip(
      bytes,
      { maxOutputLength: LOG_BOUNDS.unpacked, finishFlush: constants.Z_SYNC_FLUSH },
      (error, whole) =>
        resolve(
          error === null && whole.length > 0
            ? { bytes: whole, raw: bytes, warnings: [cutWarning(file)] }
            : logFault(file, 'bad-gzip', 'the file is packed with gzip and damaged; copy it again'),
        ),
    );
  });

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
    const bytes = file === STANDARD_INPUT ? await collected(stdin) : await fileBytes(file);
    if (bytes === null) return tooLarge();
    if (bytes.length === 0)
      return logFault(file, 'empty-file', 'the file is empty; copy it from the logger again');
    return isGzip(bytes) ? await unpacked(bytes, file) : { bytes, raw: bytes, warnings: [] };
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
  const found = await stat(file);
  if (found.size > LOG_BOUNDS.unpacked) return null;
  return found.isFile() || found.isDirectory() ? readFile(file) : collected(createReadStream(file));
};
