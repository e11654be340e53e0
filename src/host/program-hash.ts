import { readdir } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { contentHash, fileHash } from './cache.js';

/**
 * A hash of the program's own files, so that what another version kept is never taken for this one's.
 * @param beside any of its files
 */
export const programHash = async (beside: string): Promise<string> => {
  const folder = new URL('./', beside);
  const names = (await readdir(fileURLToPath(folder))).filter((name) => name.endsWith('.js')).sort();
  const hashes = await Promise.all(names.map((name) => fileHash(fileURLToPath(new URL(name, folder)))));
  return contentHash(hashes.map(String));
};
