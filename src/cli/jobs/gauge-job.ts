import type { Readable } from 'node:stream';
import { type GaugePart, gaugePartOf } from '../../outing/index.js';
import type { LogFault } from '../../recording/index.js';
import type { LogOptions } from '../log-options.js';
import { openLog } from '../open-log.js';

/** What one log gives to a gauge. */
export const gaugeJob = async (
  file: string,
  options: LogOptions & { readonly drawn?: boolean },
  stdin: Readable,
): Promise<GaugePart | LogFault> => {
  const outing = await openLog(file, options, stdin);
  return 'fault' in outing ? outing : gaugePartOf(outing, options.drawn);
};
