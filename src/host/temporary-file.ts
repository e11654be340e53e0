import { randomBytes } from 'node:crypto';
import { readdir, rm, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { systemPath } from './system-path.js';

/** After so long a temporary file is one that a killed run left, ms: a run renames its own within a second. */
const LEFT_AFTER_MS = 3_600_000;

/** Names that {@link temporaryBeside} makes, and no others. */
const OWN = /^\.thole-\d+-[0-9a-f]{12}$/;

/** A name beside a file under which it is written, before it takes the file's place. */
export const temporaryBeside = (path: string): string =>
  join(dirname(path), `.thole-${process.pid}-${randomBytes(6).toString('hex')}`);

/**
 * Remove the temporary files that killed runs left in a folder. Whatever stands in the way is let be: it is only
 * tidiness.
 * @param nowMs time of the machine's clock, ms
 */
export const sweepTemporaries = async (folder: string, nowMs: number): Promise<void> => {
  const names = await readdir(systemPath(folder)).catch(() => []);
  for (const name of names) {
    if (!OWN.test(name)) continue;
    const path = join(folder, name);
    const found = await stat(systemPath(path)).catch(() => null);
    if (found?.isFile() && nowMs - found.mtimeMs > LEFT_AFTER_MS)
      await rm(systemPath(path), { force: true }).catch(() => undefined);
  }
};
