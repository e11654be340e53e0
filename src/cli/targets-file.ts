import { inputText } from '../host/input-text.js';
import { parseTargets, type Target } from '../outing/index.js';

/**
 * The targets of a file; none where no file was named.
 * @throws UserError where it cannot be read or is not valid
 */
export const targetsOf = async (file: string | null): Promise<readonly Target[]> =>
  file === null ? [] : parseTargets(await inputText(file, 'targets file'), file);
