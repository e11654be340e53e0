import { parseInputFile } from '../contract/input-file.js';
import { type PiecesResult, piecesResult } from '../contract/pieces.js';
import { inputText } from '../host/input-text.js';
import { STANDARD_INPUT } from '../host/log-bytes.js';
import { UserError } from '../units/user-error.js';
import { batched } from './batch.js';
import type { PiecesOptions } from './jobs/pieces-job.js';
import type { Session } from './session.js';

/**
 * The pieces of another day: of its log, found as those of today, or as `thole pieces --format json` kept them.
 * What was given of today's logs alone is not given of that one.
 * @returns null where the log cannot be read, which is said
 * @throws UserError where it is a log of today, or a file kept is not valid
 */
export const otherDay = async (
  session: Session,
  file: string,
  today: readonly string[],
  asked: PiecesOptions & { readonly jobs: number | null },
): Promise<PiecesResult | null> => {
  if (today.includes(file))
    throw new UserError(`--with ${file} is the log itself: name the log of another day`);
  if (file === STANDARD_INPUT || file.toLowerCase().endsWith('.json'))
    return parseInputFile(piecesResult, await inputText(file, 'pieces of the other day'), file).value;
  const [found] = await batched<PiecesResult>(session, 'pieces', [file], {
    ...asked,
    ...{ imu: null, join: null, imuStart: null, stream: null, from: null, to: null },
    detail: {},
  });
  return found ?? null;
};
