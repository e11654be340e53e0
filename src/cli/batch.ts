import { availableParallelism } from 'node:os';
import { STANDARD_INPUT } from '../host/log-bytes.js';
import type { LogFault } from '../recording/index.js';
import { doJob, type JobKind, type LogJob } from './log-jobs.js';
import type { LogOptions } from './log-options.js';
import type { Session } from './session.js';

/** The worker's script, beside the script that this becomes part of. */
const WORKER = new URL('./worker.cjs', import.meta.url);

/** How many logs to work on at once: as given, else a worker for each core; one log needs none. */
const workersFor = (jobs: readonly LogJob[], given: number | null): number =>
  jobs.some(({ file }) => file === STANDARD_INPUT)
    ? 1
    : Math.min(jobs.length, given ?? availableParallelism());

/** Do jobs, and hand on every answer in the order of the jobs. A log that cannot be read is said. */
export const answered = async function* <Answer extends object>(
  session: Session,
  jobs: readonly LogJob[],
  given: number | null,
): AsyncGenerator<Answer | LogFault> {
  const workers = workersFor(jobs, given);
  const answers = workers > 1 ? byWorkers<Answer>(jobs, workers) : inTurn<Answer>(jobs, session);
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
  const jobs = files.map((file): LogJob => ({ kind, file, options: { ...options } }));
  for await (const answer of answered<Answer>(session, jobs, options.jobs))
    if (!('fault' in answer)) yield answer;
};

const byWorkers = async function* <Answer extends object>(
  jobs: readonly LogJob[],
  workers: number,
): AsyncGenerator<Answer | LogFault> {
  const { pooled } = await import('../host/worker-pool.js');
  yield* pooled<LogJob, Answer | LogFault>(WORKER, jobs, workers);
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
