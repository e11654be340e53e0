import { readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { UserError } from '../units/user-error.js';
import { SHEET_NAME, withoutSidecars } from './sidecars.js';
import { systemReason } from './system-reason.js';

const LOG = /\.(gpx|tcx|fit|nmea|csv)(\.gz)?$/i;

/**
 * Every log below a folder, in the order of their names; IMU logs that lie beside their track are left to it.
 * Hidden files and folders, links to folders and outing sheets are passed over.
 * @throws UserError where the folder cannot be read
 */
export const folderLogs = async (folder: string): Promise<string[]> => {
  const entries = await readdir(folder, { withFileTypes: true }).catch((error: unknown) => {
    throw new UserError(`cannot read the folder ${folder}: ${systemReason(error)}`);
  });
  const files: string[] = [];
  const below: string[] = [];
  for (const entry of entries.sort((a, b) => (a.name < b.name ? -1 : 1))) {
    if (entry.name.startsWith('.')) continue;
    const path = join(folder, entry.name);
    if (entry.isDirectory()) below.push(...(await folderLogs(path)));
    else if (LOG.test(entry.name) && entry.name !== SHEET_NAME) {
      const plain =
        entry.isFile() ||
        (await stat(path).then(
          (found) => found.isFile(),
          () => true,
        ));
      if (plain) files.push(path);
    }
  }
  return [...withoutSidecars(files), ...below];
};

/** Whether a path is that of a folder. */
export const isFolder = (path: string): Promise<boolean> =>
  stat(path).then(
    (entry) => entry.isDirectory(),
    () => false,
  );

/**
 * The logs of a list of folders and logs, each once.
 * @throws UserError where a folder cannot be read or holds no log
 */
export const logsIn = async (paths: readonly string[]): Promise<string[]> => {
  const found = new Set<string>();
  for (const path of paths) {
    const logs = (await isFolder(path)) ? await folderLogs(path) : [path];
    if (logs.length === 0)
      throw new UserError(`there is no log below ${path}: it reads GPX, TCX, FIT, NMEA and CSV`);
    for (const log of logs) found.add(log);
  }
  return [...found];
};
