import { type ChildProcess, fork } from 'node:child_process';
import { once } from 'node:events';
import { UserError } from '../units/user-error.js';
import { WORKER_FLAGS } from './engine.js';

/** What a worker answers. */
interface Answer<Value> {
  readonly index: number;
  readonly value?: Value;
  readonly error?: { readonly user: boolean; readonly message: string; readonly stack: string };
}

/** How many answers may wait for their turn, in jobs a worker: enough that a slow one stops nobody. */
const AHEAD = 4;

/** Certificates are for the net, where no worker goes; reading them takes Node.js as long as to start without. */
const workerEnv = (): NodeJS.ProcessEnv => {
  const { NODE_EXTRA_CA_CERTS: _, ...env } = process.env;
  return env;
};

const started = (entry: URL): ChildProcess =>
  fork(entry, {
    execArgv: [...WORKER_FLAGS],
    env: workerEnv(),
    serialization: 'advanced',
    stdio: ['ignore', 'inherit', 'inherit', 'ipc'],
  });

const hasEnded = ({ exitCode, signalCode }: ChildProcess): boolean =>
  exitCode !== null || signalCode !== null;

const stopped = async (worker: ChildProcess): Promise<void> => {
  if (hasEnded(worker)) return;
  const end = once(worker, 'exit');
  worker.kill();
  await end;
};

/**
 * Work through jobs on worker processes. Answers come in the order of the jobs; no job is begun while too many
 * answers wait to be taken.
 * @param entry the worker's script, which calls {@link serveJobs}
 * @throws what a job threw, in its turn; UserError stays one
 */
export const pooled = async function* <Job, Value>(
  entry: URL,
  jobs: readonly Job[],
  workerCount: number,
): AsyncGenerator<Value> {
  const workers = Array.from({ length: Math.min(workerCount, jobs.length) }, () => started(entry));
  const answers = jobs.map(() => later<Value>());
  const idle = [...workers];
  let [begun, taken] = [0, 0];
  const begin = () => {
    while (idle.length > 0 && begun < jobs.length && begun < taken + workers.length * AHEAD) {
      idle.pop()!.send({ index: begun, job: jobs[begun] });
      begun++;
    }
  };
  for (const worker of workers) {
    const lose = (why: string) => {
      for (const { reject } of answers) reject(new Error(`a worker (${entry.pathname}) ${why}`));
    };
    worker.on('message', ({ index, value, error }: Answer<Value>) => {
      if (error === undefined) answers[index]!.resolve(value as Value);
      else answers[index]!.reject(revived(error));
      idle.push(worker);
      begin();
    });
    worker.on('error', ({ message }) => lose(message));
    worker.on('exit', (code, signal) =>
      lose(`ended by ${signal ?? `exit ${code}`} before its work was done`),
    );
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
    await Promise.all(workers.map(stopped));
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
  // an answer that cannot be sent belongs to a run that was stopped, and nobody waits for it
  const answer = (message: Answer<Value>) => process.send!(message, undefined, undefined, () => undefined);
  process.on('message', ({ index, job }: { readonly index: number; readonly job: Job }) => {
    work(job).then(
      (value) => answer({ index, value }),
      (error: Error) =>
        answer({
          index,
          error: { user: error instanceof UserError, message: error.message, stack: error.stack ?? '' },
        }),
    );
  });
};
