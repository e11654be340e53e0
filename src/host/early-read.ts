import { statSync } from 'node:fs';
import { systemPath } from './system-path.js';
import { wholeFile } from './whole-file.js';

/** A file whose reading has begun. */
export interface EarlyRead {
  readonly file: string;
  readonly bytes: Promise<Uint8Array>;
}

/** Sizes of files that are read early, bytes: smaller ones are there at once, larger ones may not be wanted. */
const [LEAST, MOST] = [2 ** 20, 2 ** 28];

const isOption = (word: string | undefined): boolean => word === undefined || word.startsWith('-');

/** Size of a file, bytes; 0 where there is none that can be looked at. */
const sizeOf = (file: string): number => {
  try {
    const found = statSync(systemPath(file));
    return found.isFile() ? found.size : 0;
  } catch {
    return 0;
  }
};

/**
 * Begin to read the one file that a command line names behind its command, while the program is loaded: a log takes
 * as long to read as that.
 * @returns null where the line is of another form, or the file not of a size for it
 */
export const earlyRead = ([, file, next]: readonly string[]): EarlyRead | null => {
  if (file === undefined || isOption(file) || !isOption(next)) return null;
  const size = sizeOf(file);
  if (size < LEAST || size > MOST) return null;
  const bytes = wholeFile(systemPath(file), size);
  // Whoever takes it is reported why it failed; of a file that nobody asks for, nobody need know.
  bytes.catch(() => undefined);
  return { file, bytes };
};

let offered: EarlyRead | null = null;

/** Offer what is being read to whoever reads that file. */
export const offerRead = (early: EarlyRead | null): void => {
  offered = early;
};

/** The bytes of a file that was offered, once; null where it was not. */
export const takenRead = (file: string): Promise<Uint8Array> | null => {
  if (offered?.file !== file) return null;
  const { bytes } = offered;
  offered = null;
  return bytes;
};
