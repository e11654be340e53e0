import { type ChildProcess, fork } from 'node:child_process';
import { once } from 'node:events';
import { Worker } from 'node:worker_threads';
import { UserError } from '../units/user-error.js';
import { WORKER_FLAGS } from './engine.js';

/** What a worker says: that it is ready, and then the answer to each job. */
interface Answer<Value> {
  readonly index: number;
  readonly value?: Value;
  readonly error?: { readonly user: boolean; readonly message: string; readonly stack: string };
}
const READY = 'ready';

/** How far a job may be done before its turn, in jobs a worker: enough that a slow one stops nobody. */
const AHEAD = 16;

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
    // What an engine says as it dies is no message of the program's: the log that killed it is named instead.
    stdio: ['ignore', 'inherit', 'ignore', 'ipc'],
  });

const hasEnded = ({ exitCode, signalCode }: ChildProcess): boolean =>
  exitCode !== null || signalCode !== null;

/** End a worker: one without work ends by itself, and keeps what its engine compiled for the next one. */
const stopped = async (worker: ChildProcess, isIdle: boolean): Promise<void> => {
  if (hasEnded(worker)) return;
  const end = once(worker, 'exit');
  if (!isIdle) worker.kill('SIGKILL');
  else if (worker.connected) worker.disconnect();
  await end;
};

/**
 * Work through jobs on worker processes. Answers come in the order of the jobs; no job is begun long before its turn,
 * and of those that may be the largest is next, so that no worker is left with a large one at the end. A worker that
 * dies costs the job that it had, and another takes its place.
 * @param entry the worker's script, which calls {@link serveJobs}
 * @param sizeOf what grows with the time that a job takes
 * @param lost the answer to a job whose worker died, and of what
 * @throws what a job threw, in its turn; UserError stays one; that a worker cannot start
 */
export const pooled = async function* <Job, Value>(
  entry: URL,
  jobs: readonly Job[],
  workerCount: number,
  sizeOf: (job: Job) => number,
  lost: (job: Job, why: string) => Value,
): AsyncGenerator<Value> {
  const answers = jobs.map(() => later<Value>());
  const workers = new Set<ChildProcess>();
  const idle: ChildProcess[] = [];
  const most = Math.min(workerCount, jobs.length);
  const sizes = jobs.map(sizeOf);
  /** Jobs that are not begun, in their order. */
  const waiting = [...jobs.keys()];
  let taken = 0;
  let over = false;
  const busy = new Map<ChildProcess, number>();
  /** Take the largest job that may be begun; undefined where none may. */
  const nextJob = (): number | undefined => {
    const open = waiting.filter((index) => index < taken + most * AHEAD);
    const next = open.reduce((best, index) => (sizes[index]! > sizes[best]! ? index : best), open[0]!);
    if (next !== undefined) waiting.splice(waiting.indexOf(next), 1);
    return next;
  };
  const begin = () => {
    while (idle.length > 0) {
      const index = nextJob();
      if (index === undefined) break;
      const worker = idle.pop()!;
      busy.set(worker, index);
      worker.send({ index, job: jobs[index] }, () => undefined);
    }
    // One that nothing is left for ends while the others work.
    if (waiting.length === 0) for (const worker of idle) if (worker.connected) worker.disconnect();
  };
  const hire = () => {
    const worker = started(entry);
    workers.add(worker);
    let isReady = false;
    const end = (why: string) => {
      if (over || !workers.delete(worker)) return;
      const index = busy.get(worker);
      busy.delete(worker);
      if (idle.includes(worker)) idle.splice(idle.indexOf(worker), 1);
      if (index !== undefined) answers[index]!.resolve(lost(jobs[index]!, why));
      if (isReady && waiting.length > 0) hire();
      if (!isReady)
        for (const { reject } of answers) reject(new Error(`a worker (${entry.pathname}) ${why}`));
    };
    worker.on('message', (said: Answer<Value> | typeof READY) => {
      if (said === READY) isReady = true;
      else {
        busy.delete(worker);
        if (said.error === undefined) answers[said.index]!.resolve(said.value as Value);
        else answers[said.index]!.reject(revived(said.error));
      }
      idle.push(worker);
      begin();
    });
    worker.on('error', ({ message }) => end(message));
    worker.on('exit', (code, signal) => end(`ended by ${signal ?? `exit ${code}`}`));
  };
  for (let i = 0; i < most; i++) hire();
  try {
    for (const { promise } of answers) {
      const value = await promise;
      taken++;
      begin();
      yield value;
    }
  } finally {
    over = true;
    await Promise.all([...workers].map((worker) => stopped(worker, idle.includes(worker))));
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

/** How often a worker looks whether its parent still lives, ms. */
const LOOK_EVERY_MS = 500;

/**
 * End this process when its parent does, also while it is at work on a log and hears nothing. A thread of its own
 * looks, for what computes takes no messages.
 */
const endWithParent = (): void => {
  const watch = `setInterval(() => { if (process.ppid !== ${process.ppid}) process.kill(process.pid, 'SIGKILL'); }, ${LOOK_EVERY_MS})`;
  new Worker(watch, { eval: true, resourceLimits: { maxOldGenerationSizeMb: 8 } }).unref();
};

/** The worker's side of {@link pooled}: do every job that comes, one after the other. */
export const serveJobs = <Job, Value>(work: (job: Job) => Promise<Value>): void => {
  endWithParent();
  // an answer that cannot be sent belongs to a run that was stopped, and nobody waits for it
  const answer = (message: Answer<Value> | typeof READY) =>
    process.send!(message, undefined, undefined, () => undefined);
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
  answer(READY);
};
