import { type EarlyRead, offerRead } from '../host/early-read.js';
import { ownProcess } from '../host/engine.js';
import { ownWords } from '../host/own-words.js';
import { systemReason } from '../host/system-reason.js';
import type { LogJob } from './log-jobs.js';
import type { Streams } from './streams.js';

/**
 * Run one command line. What it does is loaded when it is needed.
 * @param argv arguments after the command's own name
 * @returns exit status: 0 done, 1 a rule broken, 2 nothing done, 3 a log could not be read
 */
export const main = async (argv: readonly string[], streams: Streams): Promise<number> => {
  const { execute } = await import('./program.js');
  return execute(argv, streams);
};

/** The words of the process's command line. Names that are not UTF-8 come from the system, where it hands them out. */
const wordsOf = (host: NodeJS.Process): readonly string[] => {
  const words = host.argv.slice(2);
  return words.some((word) => word.includes('\ufffd')) ? ownWords(words) : words;
};

/**
 * Run the process's own command line and set its exit status. A reader that closed the pipe has had enough; a result
 * that cannot be written is nothing done. What becomes of messages changes nothing else.
 * @param early a file of the line that is being read already
 */
export const run = async (host: NodeJS.Process, early: EarlyRead | null): Promise<void> => {
  ownProcess();
  offerRead(early);
  host.stderr.on('error', () => undefined);
  host.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') host.exit(0);
    host.stderr.write(`thole: error: cannot write the result to standard output: ${systemReason(error)}\n`);
    host.exit(2);
  });
  host.exitCode = await main(wordsOf(host), host);
};

/** Do the jobs that another process of the program sends: what a worker runs. */
export const serve = async (): Promise<void> => {
  ownProcess();
  const { serveJobs } = await import('../host/worker-pool.js');
  const { doJob } = await import('./log-jobs.js');
  serveJobs((job: LogJob) => doJob(job));
};
