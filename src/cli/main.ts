import type { Readable, Writable } from 'node:stream';

/** What a command is given of the process that runs it. */
export interface Streams {
  readonly stdin: Readable;
  readonly stdout: Writable;
  readonly stderr: Writable;
}

/**
 * Run one command line.
 * @param argv arguments after the command's own name
 * @returns exit status: 0 done, 1 a rule broken, 2 nothing done, 3 a log could not be read
 */
export const main = async (argv: readonly string[], streams: Streams): Promise<number> => {
  if (argv[0] === '--version') {
    streams.stdout.write('0.1.0\n');
    return 0;
  }
  streams.stderr.write('usage: thole COMMAND\n');
  return 2;
};

/** Run the process's own command line and set its exit status. */
export const run = async (host: NodeJS.Process): Promise<void> => {
  host.exitCode = await main(host.argv.slice(2), host);
};
