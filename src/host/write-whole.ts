import { mkdir, open, readlink, realpath, rename, rm, stat } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';
import { UserError } from '../units/user-error.js';
import { pathOfBytes, systemPath } from './system-path.js';
import { systemReason } from './system-reason.js';
import { sweepTemporaries, temporaryBeside } from './temporary-file.js';

/** Where a path leads: behind links, also one whose file is not there yet. */
const targetOf = async (path: string): Promise<string> => {
  const whole = await realpath(systemPath(path)).catch(() => null);
  if (whole !== null) return typeof whole === 'string' ? whole : pathOfBytes(whole);
  const link = await readlink(systemPath(path)).catch(() => null);
  return link === null ? path : resolve(dirname(path), link);
};

/**
 * Write a file whole or not at all: a new file beside it, flushed, then renamed over it, with the permissions of the
 * one before; a link stays one. A pipe or device is written as it is. What a run that was killed left there is removed.
 * @throws UserError where it cannot be written
 */
export const writeWhole = async (path: string, data: string | Uint8Array): Promise<void> => {
  const target = await targetOf(path);
  const temporary = temporaryBeside(target);
  try {
    const before = await stat(systemPath(target)).catch(() => null);
    const special = before !== null && !before.isFile();
    const handle = await open(systemPath(special ? target : temporary), 'w');
    try {
      if (before !== null && !special) await handle.chmod(before.mode & 0o7777);
      await handle.writeFile(data);
      if (!special) await handle.sync();
    } finally {
      await handle.close();
    }
    if (special) return;
    await rename(systemPath(temporary), systemPath(target));
    await sweepTemporaries(dirname(target), Date.now());
  } catch (error) {
    await rm(systemPath(temporary), { force: true });
    throw new UserError(`cannot write ${path}: ${systemReason(error)}`);
  }
};

/** Like {@link writeWhole}, and makes the folders above it. */
export const writeWholeBelow = async (path: string, data: string | Uint8Array): Promise<void> => {
  await mkdir(systemPath(dirname(path)), { recursive: true }).catch((error: unknown) => {
    throw new UserError(`cannot make the folder ${dirname(path)}: ${systemReason(error)}`);
  });
  await writeWhole(path, data);
};
