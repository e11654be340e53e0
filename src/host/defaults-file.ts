import { existsSync, statSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { STANDARD_INPUT } from './log-bytes.js';

/** Name of the file of a club's defaults. */
export const DEFAULTS_NAME = 'thole.json';

const folderOf = (path: string): string | null => {
  try {
    return statSync(path).isDirectory() ? path : dirname(path);
  } catch {
    return null;
  }
};

/** The nearest file of defaults in a folder or above it. */
const above = (folder: string): string | null => {
  for (let at = resolve(folder); ; at = dirname(at)) {
    const path = join(at, DEFAULTS_NAME);
    if (existsSync(path)) return path;
    if (dirname(at) === at) return null;
  }
};

/**
 * The file of defaults for a command line: in the folder of the first file or folder it names, or above that; without
 * one, in the working folder or above; else in the XDG config folder.
 * @param named what stands after the command and its options
 * @returns null where there is none
 */
export const defaultsPath = (
  named: readonly string[],
  env: Readonly<Record<string, string | undefined>>,
): string | null => {
  const first = named
    .filter((path) => path !== STANDARD_INPUT)
    .map(folderOf)
    .find((folder) => folder !== null);
  const found = above(first ?? '.');
  if (found !== null) return found;
  const base = env.XDG_CONFIG_HOME;
  const path = join(
    base?.startsWith('/') ? base : join(env.HOME ?? homedir(), '.config'),
    'thole',
    DEFAULTS_NAME,
  );
  return existsSync(path) ? path : null;
};
