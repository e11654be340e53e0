import type { WarningRow } from '../contract/envelope.js';
import { logsIn } from '../host/folder-logs.js';

/** The logs of folders, and what has to be said of folders below them that could not be looked into. */
export const foldersLogs = async (
  paths: readonly string[],
): Promise<{ readonly files: string[]; readonly skipped: readonly WarningRow[] }> => {
  const skipped: WarningRow[] = [];
  const files = await logsIn(paths, (folder, why) => {
    skipped.push({
      code: 'folder-skipped',
      file: folder,
      where: null,
      message: `this folder cannot be read and is passed over: ${why}`,
    });
  });
  return { files, skipped };
};
