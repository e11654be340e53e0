import { statSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { STANDARD_INPUT } from '../host/log-bytes.js';
import { sheetBeside } from '../host/sidecars.js';
import { systemPath } from '../host/system-path.js';
import { type LogFault, logFault } from '../recording/index.js';
import { doJob, type JobKind, type LogJob } from './log-jobs.js';
import type { LogOptions } from './log-options.js';
import { imuName, logNames } from './log-source.js';
import type { Session } from './session.js';

/** The worker's script, beside the script that this becomes part of. */
const WORKER = new URL('./worker.cjs', import.meta.url);

/** Whether a job reads standard input, which workers have none of. */
const readsInput = ({ file, options }: LogJob): boolean =>
  file === STANDARD_INPUT || Object.values(options).includes(STANDARD_INPUT);

/** How many workers to work with; 0: none, for one log, one job at a time as given, or a file on standard input. */
const workersFor = (jobs: readonly LogJob[], given: number | null): number =>
  jobs.length < 2 || given === 1 || jobs.some(readsInput)
    ? 0
    : Math.min(jobs.length, given ?? availableParallelism());

/** The files that a job reads: its logs, and the outing sheet beside them. */
const filesOf = ({ file, options }: LogJob): readonly string[] => {
  const imu = imuName(file, options);
  return [...logNames(file, options), ...(imu === null ? [] : [imu]), sheetBeside(file)];
};

/** The answer to a job that is known without doing it; null where it is not. */
export type KnownAnswer<Answer> = (job: LogJob) => Promise<Answer | null>;

/** How many answers that may be known are looked for at once: one file is read while another is worked on. */
const LOOKED_FOR = 8;

/** The answers that are known without work, job by job. */
const knownAnswers = async <Answer>(
  jobs: readonly LogJob[],
  known: KnownAnswer<Answer>,
): Promise<(Answer | null)[]> => {
  const answers: (Answer | null)[] = [];
  for (let from = 0; from < jobs.length; from += LOOKED_FOR)
    answers.push(
      // What is wrong with a log is said where its job is done.
      ...(await Promise.all(jobs.slice(from, from + LOOKED_FOR).map((job) => known(job).catch(() => null)))),
    );
  return answers;
};

/**
 * Do jobs, and hand on every answer in the order of the jobs. A log that cannot be read is said.
 * @param known what answers a job without work
 */
export const answered = async function* <Answer extends object>(
  session: Session,
  jobs: readonly LogJob[],
  given: number | null,
  known: KnownAnswer<Answer> | null = null,
): AsyncGenerator<Answer | LogFault> {
  session.guard(jobs.flatMap(filesOf));
  const before = known === null ? [] : await knownAnswers(jobs, known);
  const left = jobs.filter((_, i) => !before[i]);
  const workers = workersFor(left, given);
  const answers = workers > 0 ? byWorkers<Answer>(left, workers) : inTurn<Answer>(left, session);
  try {
    for (const i of jobs.keys()) {
      const answer = before[i] ?? ((await answers.next()).value as Answer | LogFault);
      session.progress(i + 1, jobs.length);
      if ('fault' in answer) session.fault(answer);
      yield answer;
    }
  } finally {
    await answers.return(undefined);
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
  known: KnownAnswer<Answer> | null = null,
): AsyncGenerator<Answer> {
  const jobs = files.map(
    (file): LogJob => ({ kind, file, options: { ...options }, alone: files.length === 1 }),
  );
  for await (const answer of answered<Answer>(session, jobs, options.jobs, known))
    if (!('fault' in answer)) yield answer;
};

/** Bytes of the logs of a job, as far as they can be known: what cannot be looked at is said by its own job. */
const bytesOf = (job: LogJob): number =>
  filesOf(job).reduce((sum, file) => {
    try {
      return sum + statSync(systemPath(file)).size;
    } catch {
      return sum;
    }
  }, 0);

const byWorkers = async function* <Answer extends object>(
  jobs: readonly LogJob[],
  workers: number,
): AsyncGenerator<Answer | LogFault> {
  const { pooled } = await import('../host/worker-pool.js');
  yield* pooled<LogJob, Answer | LogFault>(WORKER, jobs, workers, bytesOf, ({ file }, why) =>
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
export const batched = async <Answer extends object>(
  ...of: Parameters<typeof batch<Answer>>
): Promise<Answer[]> => {
  const all: Answer[] = [];
  for await (const answer of batch<Answer>(...of)) all.push(answer);
  return all;
};
