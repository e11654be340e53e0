import type { Readable } from 'node:stream';
import type { AverageResult } from '../../contract/average.js';
import type { StrokesResult } from '../../contract/strokes.js';
import { averageResultOf, strokesResultOf } from '../../outing/index.js';
import type { LogFault } from '../../recording/index.js';
import type { LogOptions } from '../log-options.js';
import { openLog } from '../open-log.js';

/** What `thole strokes` is asked of a log. */
export interface StrokesOptions extends LogOptions {
  readonly average: boolean;
  readonly bands: readonly number[] | null;
}

/** Each stroke of one log, or the crew's average stroke. */
export const strokesJob = async (
  file: string,
  options: StrokesOptions,
  stdin: Readable,
): Promise<StrokesResult | AverageResult | LogFault> => {
  const outing = await openLog(file, options, stdin);
  if ('fault' in outing) return outing;
  return options.average ? averageResultOf(outing, options.bands ?? undefined) : strokesResultOf(outing);
};
