import type { Dirent } from 'node:fs';
import { readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { UserError } from '../units/user-error.js';
import { isSpecial } from './plain-file.js';
import { SHEET_NAME, withoutSidecars } from './sidecars.js';
import { pathOfBytes, systemPath } from './system-path.js';
import { systemReason } from './system-reason.js';

const LOG = /\.(gpx|tcx|fit|nmea|csv)(\.gz)?$/i;

/** Says that a folder could not be looked into, and why. */
export type SayFolder = (folder: string, why: string) => void;

/** What stands in a folder, in the order of the names. */
const entriesOf = async (folder: string): Promise<{ readonly name: string; readonly entry: Dirent }[]> => {
  // Names as bytes, for they need not be UTF-8.
  const options = { withFileTypes: true, encoding: 'buffer' } as const;
  const entries = (await readdir(systemPath(folder), options)) as unknown as (Dirent & { name: Buffer })[];
  return entries
    .map((entry) => ({ name: pathOfBytes(entry.name), entry }))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
};

/**
 * Every log below a folder, in the order of their names; IMU logs that lie beside their track are left to it.
 * Hidden files and folders, links to folders and outing sheets are passed over; folders that cannot be looked into are
 * said and passed over.
 * @throws UserError where the folder itself cannot be read
 */
export const folderLogs = async (folder: string, say: SayFolder): Promise<string[]> => {
  const found: string[] = [];
  // A list of its own for each folder, not a call: folders nest as deep as the system allows.
  const waiting = [folder];
  while (waiting.length > 0) {
    const at = waiting.pop()!;
    const entries = await entriesOf(at).catch((error: unknown) => {
      if (at === folder) throw new UserError(`cannot read the folder ${at}: ${systemReason(error)}`);
      say(at, systemReason(error));
      return [];
    });
    const files: string[] = [];
    const below: string[] = [];
    for (const { name, entry } of entries) {
      if (name.startsWith('.')) continue;
      const path = join(at, name);
      if (entry.isDirectory()) below.push(path);
      else if (LOG.test(name) && name !== SHEET_NAME && !isSpecial(path) && !(await isFolder(path)))
        files.push(path);
    }
    found.push(...withoutSidecars(files));
    waiting.push(...below.reverse());
  }
  return found;
};

/** Whether a path is that of a folder. */
export const isFolder = (path: string): Promise<boolean> =>
  stat(systemPath(path)).then(
    (entry) => entry.isDirectory(),
    () => false,
  );

/**
 * The logs of a list of folders and logs, each once.
 * @throws UserError where a folder cannot be read or holds no log
 */
export const logsIn = async (paths: readonly string[], say: SayFolder): Promise<string[]> => {
  const found = new Set<string>();
  for (const path of paths) {
    const logs = (await isFolder(path)) ? await folderLogs(path, say) : [path];
    if (logs.length === 0)
      throw new UserError(`there is no log below ${path}: it reads GPX, TCX, FIT, NMEA and CSV`);
    for (const log of logs) found.add(log);
  }
  return [...found];
};
