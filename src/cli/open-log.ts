import type { Readable } from 'node:stream';
import { wholeOuting } from '../outing/open-outing.js';
import type { Outing } from '../outing/outing.js';
import type { LogFault } from '../recording/index.js';
import { joinLog } from './join-log.js';
import type { LogOptions } from './log-options.js';

/**
 * Open the outing of one log: its track smoothed, its strokes found.
 * @throws UserError where a file other than a log is not valid
 */
export const openLog = async (
  file: string,
  options: LogOptions,
  stdin: Readable,
): Promise<Outing | LogFault> => {
  const joined = await joinLog(file, options, stdin);
  return 'fault' in joined ? joined : wholeOuting(joined);
};
