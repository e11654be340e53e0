import { availableParallelism } from 'node:os';
import { STANDARD_INPUT } from '../host/log-bytes.js';
import { sheetBeside } from '../host/sidecars.js';
import { type LogFault, logFault } from '../recording/index.js';
import { doJob, type JobKind, type LogJob } from './log-jobs.js';
import type { LogOptions } from './log-options.js';
import { imuName, logNames } from './log-source.js';
import type { Session } from './session.js';

/** The worker's script, beside the script that this becomes part of. */
const WORKER = new URL('./worker.cjs', import.meta.url);

/** How many workers to work with; 0: none, for one log, one job at a time as given, or a log on standard input. */
const workersFor = (jobs: readonly LogJob[], given: number | null): number =>
  jobs.length < 2 || given === 1 || jobs.some(({ file }) => file === STANDARD_INPUT)
    ? 0
    : Math.min(jobs.length, given ?? availableParallelism());

/** The files that a job reads: its logs, and the outing sheet beside them. */
const filesOf = ({ file, options }: LogJob): readonly string[] => {
  const imu = imuName(file, options);
  return [...logNames(file, options), ...(imu === null ? [] : [imu]), sheetBeside(file)];
};

/** Do jobs, and hand on every answer in the order of the jobs. A log that cannot be read is said. */
export const answered = async function* <Answer extends object>(
  session: Session,
  jobs: readonly LogJob[],
  given: number | null,
): AsyncGenerator<Answer | LogFault> {
  session.guard(jobs.flatMap(filesOf));
  const workers = workersFor(jobs, given);
  const answers = workers > 0 ? byWorkers<Answer>(jobs, workers) : inTurn<Answer>(jobs, session);
  let done = 0;
  for await (const answer of answers) {
    session.progress(++done, jobs.length);
    if ('fault' in answer) session.fault(answer);
    yield answer;
  }
};

/**
 * Do one kind of work on several logs, and hand on the answers in the order of the logs. A log that cannot be
 * read is said and left out.
 */
export const batch = async function* <Answer extends object>(
  session: Session,
  kind: JobKind,
  files: readonly string[],
  options: LogOptions & Readonly<Record<string, unknown>> & { readonly jobs: number | null },
): AsyncGenerator<Answer> {
  const jobs = files.map(
    (file): LogJob => ({ kind, file, options: { ...options }, alone: files.length === 1 }),
  );
  for await (const answer of answered<Answer>(session, jobs, options.jobs))
    if (!('fault' in answer)) yield answer;
};

const byWorkers = async function* <Answer extends object>(
  jobs: readonly LogJob[],
  workers: number,
): AsyncGenerator<Answer | LogFault> {
  const { pooled } = await import('../host/worker-pool.js');
  yield* pooled<LogJob, Answer | LogFault>(WORKER, jobs, workers, ({ file }, why) =>
    logFault(
      file,
      'worker-lost',
      `the process that worked on this log ${why}; the log is damaged in a way that thole does not stand, or the memory is full: please report this line and, if you can, the log`,
    ),
  );
};

const inTurn = async function* <Answer extends object>(
  jobs: readonly LogJob[],
  session: Session,
): AsyncGenerator<Answer | LogFault> {
  for (const job of jobs) yield await doJob<Answer>(job, session.streams.stdin);
};

/** All answers of a {@link batch}. */
export const batched = async <Answer extends object>(...of: Parameters<typeof batch>): Promise<Answer[]> => {
  const all: Answer[] = [];
  for await (const answer of batch<Answer>(...of)) all.push(answer);
  return all;
};
