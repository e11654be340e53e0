import type { Readable } from 'node:stream';
import type { OutingResult } from '../../contract/outing.js';
import { type DrawnAsk, outingResultOf } from '../../pieces/index.js';
import type { LogFault } from '../../recording/index.js';
import { type CourseText, courseOfText } from '../course-text.js';
import type { LogOptions } from '../log-options.js';
import { openLog } from '../open-log.js';

/** What `thole outing` is asked of each log. */
export interface OutingOptions extends LogOptions {
  readonly bands: readonly number[] | null;
  readonly courseText?: CourseText | null;
  /** What pictures need besides; null or left out: nothing. */
  readonly drawn?: DrawnAsk | null;
  /** Whether a map is made of it; not unless given. */
  readonly positions?: boolean;
}

/** One outing at a glance. */
export const outingJob = async (
  file: string,
  options: OutingOptions,
  stdin: Readable,
): Promise<OutingResult | LogFault> => {
  const outing = await openLog(file, options, stdin);
  if ('fault' in outing) return outing;
  return outingResultOf(
    outing,
    options.bands === null ? {} : { boundsSpm: options.bands },
    options.courseText ? courseOfText(options.courseText) : null,
    options.drawn ?? null,
    options.positions ?? false,
  );
};
