import { readdir, readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { bytesHash, contentHash } from './cache.js';

/**
 * A hash of the program's own files, so that what another version kept is never taken for this one's: a number kept
 * in the source could be forgotten when a figure changes, this cannot.
 * @param beside any of its files
 */
export const programHash = async (beside: string): Promise<string> => {
  const folder = new URL('./', beside);
  const names = (await readdir(fileURLToPath(folder))).filter((name) => name.endsWith('.cjs')).sort();
  const files = await Promise.all(names.map((name) => readFile(new URL(name, folder))));
  return contentHash(files.map(bytesHash));
};
