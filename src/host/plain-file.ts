import { type Stats, statSync } from 'node:fs';
import { systemPath } from './system-path.js';

/** What stands at a path; null where nothing does that can be looked at. */
const statsOf = (path: string): Stats | null => {
  try {
    return statSync(systemPath(path));
  } catch {
    return null;
  }
};

/**
 * True where something stands at a path that is neither a file nor a folder: a pipe, a socket, a device. What was
 * only found, and not named by the user, is never read there: it might give nothing for ever, or no end of it.
 */
export const isSpecial = (path: string): boolean => {
  const found = statsOf(path);
  return found !== null && !found.isFile() && !found.isDirectory();
};

/** True where two paths lead to one file that is there. */
export const isSameFile = (one: string, other: string): boolean => {
  const [a, b] = [statsOf(one), statsOf(other)];
  return a !== null && b !== null && a.isFile() && a.dev === b.dev && a.ino === b.ino;
};
