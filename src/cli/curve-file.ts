import { type Curve, curveResult } from '../contract/curve.js';
import { parseInputFile } from '../contract/input-file.js';
import { inputText } from '../host/input-text.js';

/**
 * The curve of a file that `thole curve --out` wrote; null where none was named.
 * @throws UserError where it cannot be read, is not valid or holds no curve
 */
export const curveOfFile = async (file: string | null): Promise<Curve | null> => {
  if (file === null) return null;
  const { value, errorAt } = parseInputFile(curveResult, await inputText(file, 'curve'), file);
  if (value.curve === null)
    throw errorAt(['curve'], 'there is no curve in this file: make it from logs that carry one');
  return value.curve;
};
