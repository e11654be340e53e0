import type { Streams } from './streams.js';
import { VERSION } from './version.js';

/**
 * Run one command line. Everything but the version is loaded when it is needed.
 * @param argv arguments after the command's own name
 * @returns exit status: 0 done, 1 a rule broken, 2 nothing done, 3 a log could not be read
 */
export const main = async (argv: readonly string[], streams: Streams): Promise<number> => {
  if (argv[0] === '--version' && argv.length === 1) {
    streams.stdout.write(`${VERSION}\n`);
    return 0;
  }
  const { execute } = await import('./program.js');
  return execute(argv, streams);
};

/** Run the process's own command line and set its exit status. A reader that closed the pipe has had enough. */
export const run = async (host: NodeJS.Process): Promise<void> => {
  for (const stream of [host.stdout, host.stderr])
    stream.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code !== 'EPIPE') throw error;
      host.exit(0);
    });
  host.exitCode = await main(host.argv.slice(2), host);
};
