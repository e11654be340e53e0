import { access } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { systemPath } from './system-path.js';

const there = (path: string): Promise<boolean> =>
  access(systemPath(path)).then(
    () => true,
    () => false,
  );

/**
 * A file that a list names, found from where the list lies; the packed one where only that is there.
 * @param list the list's own path
 */
export const fileOfList = async (list: string, named: string): Promise<string> => {
  const path = resolve('/', named) === named ? named : join(dirname(list), named);
  return !(await there(path)) && (await there(`${path}.gz`)) ? `${path}.gz` : path;
};
