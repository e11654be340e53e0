import { Readable } from 'node:stream';
import type { LogFault } from '../recording/index.js';
import type { LogOptions } from './log-options.js';

/** One log to be worked on, here or by a worker: plain data. */
export interface LogJob {
  readonly kind: JobKind;
  readonly file: string;
  readonly options: LogOptions & Readonly<Record<string, unknown>>;
}

/** What a job gives: the result of one log, or why there is none. */
type Work = (file: string, options: never, stdin: Readable) => Promise<object>;

/** The work that is done log by log, loaded when it is asked for. */
const WORK = {
  inspect: async () => (await import('./jobs/inspect-job.js')).inspectJob,
  curve: async () => (await import('./jobs/curve-job.js')).curveJob,
  outing: async () => (await import('./jobs/outing-job.js')).outingJob,
  pieces: async () => (await import('./jobs/pieces-job.js')).piecesJob,
  check: async () => (await import('./jobs/check-job.js')).checkJob,
  workout: async () => (await import('./jobs/workout-job.js')).workoutJob,
  season: async () => (await import('./jobs/season-job.js')).seasonJob,
  gauge: async () => (await import('./jobs/gauge-job.js')).gaugeJob,
  regatta: async () => (await import('./jobs/regatta-job.js')).regattaJob,
} satisfies Record<string, () => Promise<Work>>;

export type JobKind = keyof typeof WORK;

/** Do one job. */
export const doJob = async <Answer extends object>(
  { kind, file, options }: LogJob,
  stdin: Readable = Readable.from([]),
): Promise<Answer | LogFault> => {
  const work = (await WORK[kind]()) as Work;
  return (await work(file, options as never, stdin)) as Answer | LogFault;
};
