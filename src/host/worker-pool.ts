import { parentPort, Worker } from 'node:worker_threads';
import { UserError } from '../units/user-error.js';

/** What a worker answers. */
interface Answer<Value> {
  readonly index: number;
  readonly value?: Value;
  readonly error?: { readonly user: boolean; readonly message: string; readonly stack: string };
}

/** How many answers may wait for their turn, in jobs a worker: enough that a slow one stops nobody. */
const AHEAD = 4;

/**
 * Work through jobs on worker threads. Answers come in the order of the jobs; no job is begun while too many
 * answers wait to be taken.
 * @param entry the worker's script, which calls {@link serveJobs}
 * @throws what a job threw, in its turn; UserError stays one
 */
export const pooled = async function* <Job, Value>(
  entry: URL,
  jobs: readonly Job[],
  workerCount: number,
): AsyncGenerator<Value> {
  const workers = Array.from({ length: Math.min(workerCount, jobs.length) }, () => new Worker(entry));
  const answers = jobs.map(() => later<Value>());
  const idle = [...workers];
  let [begun, taken] = [0, 0];
  const begin = () => {
    while (idle.length > 0 && begun < jobs.length && begun < taken + workers.length * AHEAD) {
      idle.pop()!.postMessage({ index: begun, job: jobs[begun] });
      begun++;
    }
  };
  for (const worker of workers) {
    worker.on('message', ({ index, value, error }: Answer<Value>) => {
      if (error === undefined) answers[index]!.resolve(value as Value);
      else answers[index]!.reject(revived(error));
      idle.push(worker);
      begin();
    });
    worker.on('error', (error) => {
      for (const { reject } of answers) reject(error);
    });
  }
  try {
    begin();
    for (const { promise } of answers) {
      const value = await promise;
      taken++;
      begin();
      yield value;
    }
  } finally {
    await Promise.all(workers.map((worker) => worker.terminate()));
  }
};

/** A promise that is settled from outside; a failure that nobody waits for any more is no fault. */
const later = <Value>() => {
  let [resolve, reject]: [(value: Value) => void, (error: unknown) => void] = [() => {}, () => {}];
  const promise = new Promise<Value>((fulfil, refuse) => {
    [resolve, reject] = [fulfil, refuse];
  });
  promise.catch(() => undefined);
  return { promise, resolve, reject };
};

const revived = ({ user, message, stack }: NonNullable<Answer<unknown>['error']>): Error =>
  user ? new UserError(message) : Object.assign(new Error(message), { stack });

/** The worker's side of {@link pooled}: do every job that comes, one after the other. */
export const serveJobs = <Job, Value>(work: (job: Job) => Promise<Value>): void => {
  parentPort!.on('message', ({ index, job }: { readonly index: number; readonly job: Job }) => {
    work(job).then(
      (value) => parentPort!.postMessage({ index, value } satisfies Answer<Value>),
      (error: Error) =>
        parentPort!.postMessage({
          index,
          error: { user: error instanceof UserError, message: error.message, stack: error.stack ?? '' },
        } satisfies Answer<Value>),
    );
  });
};
