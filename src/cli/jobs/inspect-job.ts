import type { Readable } from 'node:stream';
import type { InspectResult } from '../../contract/inspect.js';
import { inspected } from '../../outing/inspection.js';
import type { LogFault } from '../../recording/index.js';
import { joinLog, type LogOptions } from '../open-log.js';

/** What one log holds and can carry. */
export const inspectJob = async (
  file: string,
  options: LogOptions,
  stdin: Readable,
): Promise<InspectResult | LogFault> => {
  const joined = await joinLog(file, options, stdin);
  return 'fault' in joined ? joined : inspected(joined);
};
