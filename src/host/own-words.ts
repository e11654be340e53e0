import { readFileSync } from 'node:fs';
import { pathOfBytes } from './system-path.js';

const ZERO = 0;

/** Where the system hands out the words of this process as the bytes that they were; Linux does. */
const COMMAND_LINE = '/proc/self/cmdline';

/** Zero-ended words as text. */
const wordsOfBytes = (bytes: Uint8Array): string[] => {
  const words: string[] = [];
  let from = 0;
  for (let end = bytes.indexOf(ZERO); end >= 0; end = bytes.indexOf(ZERO, from)) {
    words.push(pathOfBytes(bytes.subarray(from, end)));
    from = end + 1;
  }
  return words;
};

/**
 * The last words of this process's command line, as names that lead to the files that they meant: the engine makes one
 * sign of every byte that is no UTF-8.
 * @param seen the same words as the engine gives them, which are the answer where the system does not tell
 */
export const ownWords = (seen: readonly string[]): readonly string[] => {
  try {
    const words = wordsOfBytes(readFileSync(COMMAND_LINE));
    return words.length < seen.length ? seen : words.slice(words.length - seen.length);
  } catch {
    return seen;
  }
};
