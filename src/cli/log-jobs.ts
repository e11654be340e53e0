import { Readable } from 'node:stream';
import { type LogFault, logFault } from '../recording/index.js';
import { LogMisfit, UserError } from '../units/user-error.js';
import type { LogOptions } from './log-options.js';
import { ownFault } from './own-fault.js';
import { possibleAnswer } from './possible-answer.js';

/** One log to be worked on, here or by a worker: plain data. */
export interface LogJob {
  readonly kind: JobKind;
  readonly file: string;
  readonly options: LogOptions & Readonly<Record<string, unknown>>;
  /** Whether it is the only log of its command line. */
  readonly alone: boolean;
}

/** What a job gives: the result of one log, or why there is none. */
type Work = (file: string, options: never, stdin: Readable) => Promise<object>;

/** The work that is done log by log, loaded when it is asked for. */
const WORK = {
  inspect: async () => (await import('./jobs/inspect-job.js')).inspectJob,
  curve: async () => (await import('./jobs/curve-job.js')).curveJob,
  strokes: async () => (await import('./jobs/strokes-job.js')).strokesJob,
  outing: async () => (await import('./jobs/outing-job.js')).outingJob,
  pieces: async () => (await import('./jobs/pieces-job.js')).piecesJob,
  check: async () => (await import('./jobs/check-job.js')).checkJob,
  workout: async () => (await import('./jobs/workout-job.js')).workoutJob,
  season: async () => (await import('./jobs/season-job.js')).seasonJob,
  gauge: async () => (await import('./jobs/gauge-job.js')).gaugeJob,
  regatta: async () => (await import('./jobs/regatta-job.js')).regattaJob,
} satisfies Record<string, () => Promise<Work>>;

export type JobKind = keyof typeof WORK;

type Answered = Parameters<typeof possibleAnswer>[1];

/**
 * Do one job. Whatever is thrown over a log is that log's fault, so that the others of its batch are answered.
 * @throws UserError where a file other than a log is not valid, or what was asked does not fit a log that is alone
 */
export const doJob = async <Answer extends object>(
  { kind, file, options, alone }: LogJob,
  stdin: Readable = Readable.from([]),
): Promise<Answer | LogFault> => {
  try {
    const work = (await WORK[kind]()) as Work;
    const answer = (await work(file, options as never, stdin)) as Answer | LogFault;
    return 'schema' in answer
      ? ((await possibleAnswer(file, answer as unknown as Answered)) as unknown as Answer)
      : answer;
  } catch (error) {
    if (error instanceof LogMisfit) {
      if (!alone) return logFault(file, 'asked-elsewhere', error.message);
      throw new UserError(`${file}: ${error.message}`);
    }
    if (error instanceof UserError) throw error;
    return ownFault(file, error);
  }
};
