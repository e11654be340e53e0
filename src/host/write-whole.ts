import { mkdir, open, rename, rm, stat } from 'node:fs/promises';
import { dirname } from 'node:path';
import { UserError } from '../units/user-error.js';
import { systemReason } from './system-reason.js';
import { sweepTemporaries, temporaryBeside } from './temporary-file.js';

/**
 * Write a file whole or not at all: a new file beside it, flushed, then renamed over it. A pipe or device is
 * written as it is. What a run that was killed left there is removed.
 * @throws UserError where it cannot be written
 */
export const writeWhole = async (path: string, data: string | Uint8Array): Promise<void> => {
  const temporary = temporaryBeside(path);
  try {
    const special = await stat(path).then(
      (found) => !found.isFile(),
      () => false,
    );
    const handle = await open(special ? path : temporary, 'w');
    try {
      await handle.writeFile(data);
      if (!special) await handle.sync();
    } finally {
      await handle.close();
    }
    if (special) return;
    await rename(temporary, path);
    await sweepTemporaries(dirname(path), Date.now());
  } catch (error) {
    await rm(temporary, { force: true });
    throw new UserError(`cannot write ${path}: ${systemReason(error)}`);
  }
};

/** Like {@link writeWhole}, and makes the folders above it. */
export const writeWholeBelow = async (path: string, data: string | Uint8Array): Promise<void> => {
  await mkdir(dirname(path), { recursive: true }).catch((error: unknown) => {
    throw new UserError(`cannot make the folder ${dirname(path)}: ${systemReason(error)}`);
  });
  await writeWhole(path, data);
};
