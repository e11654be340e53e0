import type { Readable } from 'node:stream';
import { type CurvePart, curvePartOf } from '../../pieces/index.js';
import type { LogFault } from '../../recording/index.js';
import type { LogOptions } from '../log-options.js';
import { openLog } from '../open-log.js';

/** What one log gives to a curve. */
export const curveJob = async (
  file: string,
  options: LogOptions,
  stdin: Readable,
): Promise<CurvePart | LogFault> => {
  const outing = await openLog(file, options, stdin);
  return 'fault' in outing ? outing : curvePartOf(outing);
};
