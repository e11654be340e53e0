import type { Readable } from 'node:stream';
import type { InspectResult } from '../../contract/inspect.js';
import { inspectResultOf } from '../../outing/index.js';
import type { LogFault } from '../../recording/index.js';
import { type LogOptions, openLog } from '../open-log.js';

/** What one log holds and can carry. */
export const inspectJob = async (
  file: string,
  options: LogOptions,
  stdin: Readable,
): Promise<InspectResult | LogFault> => {
  const outing = await openLog(file, options, stdin);
  return 'fault' in outing ? outing : inspectResultOf(outing);
};
