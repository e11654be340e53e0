import { UserError } from './user-error.js';

/**
 * Read a length: `2000`, `2000m`, `1.5km`.
 * @returns metres
 * @throws UserError where it is none of these, or not above 0
 */
export const parseDistance = (text: string): number => {
  const found = /^(\d+(?:\.\d+)?)\s*(m|km)?$/i.exec(text.trim());
  const metres = found ? Number(found[1]) * (found[2]?.toLowerCase() === 'km' ? 1000 : 1) : 0;
  if (metres > 0) return metres;
  throw new UserError(`"${text.trim()}" is not a distance: write metres such as 2000 or 2000m, or 1.5km`);
};
