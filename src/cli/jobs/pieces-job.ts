import type { Readable } from 'node:stream';
import type { PiecesResult } from '../../contract/pieces.js';
import { type BestAsk, momentOf, type Target, targetOf } from '../../outing/index.js';
import { checkedWithin, type DetailAsk, type PartAsk, piecesResultOf } from '../../pieces/index.js';
import type { LogFault } from '../../recording/index.js';
import { type CourseText, courseOfText } from '../course-text.js';
import type { LogOptions } from '../log-options.js';
import { openLog } from '../open-log.js';

/** What `thole pieces` is asked of each log. */
export interface PiecesOptions extends LogOptions {
  readonly distance: number | null;
  readonly time: number | null;
  readonly from: string | null;
  readonly to: string | null;
  readonly laps: boolean;
  readonly best: readonly BestAsk[] | null;
  readonly parts: number;
  readonly by: 'distance' | 'time';
  readonly every: number | null;
  readonly courseText?: CourseText | null;
  readonly targetList?: readonly Target[];
  readonly category?: string | null;
  readonly detail?: DetailAsk;
  /** Longest stop or slow stretch within a piece, s. */
  readonly longestStop: number;
  /** IANA zone of times of day. */
  readonly zone: string;
}

const partAsk = ({ every, by, parts }: PiecesOptions): PartAsk =>
  every === null ? { by, count: parts } : { by: 'metres', everyM: every };

/** Each piece of one log, and its parts. */
export const piecesJob = async (
  file: string,
  options: PiecesOptions,
  stdin: Readable,
): Promise<PiecesResult | LogFault> => {
  const outing = await openLog(file, options, stdin);
  if ('fault' in outing) return outing;
  const { distance, time, from, to, laps, best, courseText, targetList, category } = options;
  const moment = (text: string | null) =>
    text === null ? null : momentOf(outing.recording, text, options.zone);
  const [fromS, toS] = [moment(from), moment(to)];
  const between = fromS !== null || toS !== null;
  const ask = courseText
    ? { kind: 'course' as const, course: courseOfText(courseText) }
    : distance !== null
      ? { kind: 'distance' as const, metres: distance }
      : time !== null
        ? { kind: 'time' as const, seconds: time }
        : best !== null
          ? { kind: 'best' as const, lengths: best }
          : laps
            ? { kind: 'laps' as const }
            : between
              ? { kind: 'between' as const, fromS, toS }
              : { kind: 'unaided' as const };
  return piecesResultOf(
    outing,
    ask,
    partAsk(options),
    targetOf(targetList ?? [], outing.craft, category ?? null, distance),
    options.detail,
    {
      within: between ? checkedWithin(outing, fromS, toS) : null,
      longestInterruptionS: options.longestStop,
    },
  );
};
