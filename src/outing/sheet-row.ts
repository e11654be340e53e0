import { UserError } from '../units/user-error.js';

const partsOf = (path: string): string[] => path.split(/[/\\]/).filter((part) => part !== '' && part !== '.');

/** A log's name without `.gz`, its extension, and the `.imu` that marks the accelerometer log of a track. */
export const stemOf = (file: string): string =>
  (partsOf(file).at(-1) ?? '')
    .replace(/\.gz$/i, '')
    .replace(/\.[^.]+$/, '')
    .replace(/\.imu$/i, '');

const folderFits = (row: string, file: string): boolean => {
  const asked = partsOf(row).slice(0, -1);
  return asked.length === 0 || partsOf(file).slice(0, -1).slice(-asked.length).join('/') === asked.join('/');
};

/**
 * What the sheet says of a log: the row with its very name, else the row with its name short of the
 * extension. A folder in the row must be the log's folder.
 * @returns null where no row is about it
 * @throws UserError where two rows could mean it
 */
export const sheetRowOf = <Row extends { readonly file: string }>(
  rows: readonly Row[],
  file: string,
): Row | null => {
  const near = rows.filter((row) => folderFits(row.file, file));
  const exact = near.filter((row) => partsOf(row.file).at(-1) === partsOf(file).at(-1));
  const found = exact.length > 0 ? exact : near.filter((row) => stemOf(row.file) === stemOf(file));
  if (found.length > 1)
    throw new UserError(
      `the outing sheet has ${found.length} rows that could mean ${file} (${found.map((row) => row.file).join(', ')}): give the log's full name in one of them`,
    );
  return found[0] ?? null;
};
