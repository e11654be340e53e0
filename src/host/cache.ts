import { createHash } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { sweepTemporaries } from './temporary-file.js';
import { writeWholeBelow } from './write-whole.js';

/** What a cache answers: nothing kept, a damaged entry, or the value. */
export type Kept<Value> =
  | { readonly state: 'none' }
  | { readonly state: 'damaged'; readonly path: string }
  | { readonly state: 'kept'; readonly value: Value };

/** Values kept by key in a folder: one file an entry, written whole, so that runs side by side do no harm. */
export interface Cache<Value> {
  readonly get: (key: string) => Promise<Kept<Value>>;
  readonly put: (key: string, value: Value) => Promise<void>;
}

/** SHA-256 of texts, each distinguished from the next by its length; hexadecimal. */
export const contentHash = (parts: readonly string[]): string => {
  const hash = createHash('sha256');
  for (const part of parts) hash.update(`${part.length}:`).update(part);
  return hash.digest('hex');
};

/** SHA-256 of bytes, hexadecimal. */
export const bytesHash = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/**
 * A cache in a folder. An entry is one line of JSON after the hash of that line, so damage is noticed.
 * @param folder made where it is not there
 */
export const openCache = <Value>(folder: string): Cache<Value> => {
  const pathOf = (key: string): string => join(folder, key.slice(0, 2), `${key}.json`);
  return {
    get: async (key) => {
      const path = pathOf(key);
      const text = await readFile(path, 'utf8').catch((error: NodeJS.ErrnoException) =>
        error.code === 'ENOENT' || error.code === 'ENOTDIR' ? null : '',
      );
      if (text === null) return { state: 'none' };
      const [hash, body = ''] = text.split('\n');
      if (hash !== contentHash([key, body])) return { state: 'damaged', path };
      return { state: 'kept', value: JSON.parse(body) as Value };
    },
    put: async (key, value) => {
      const body = JSON.stringify(value);
      await writeWholeBelow(pathOf(key), `${contentHash([key, body])}\n${body}\n`);
    },
  };
};

/** Remove what runs that were killed left half written anywhere in a cache. */
export const sweepCache = async (folder: string): Promise<void> => {
  const below = await readdir(folder).catch(() => []);
  await Promise.all(below.map((name) => sweepTemporaries(join(folder, name), Date.now())));
};
