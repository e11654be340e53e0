import { Readable, Writable } from 'node:stream';
import { main } from '../../src/cli/main.js';

/** What one command line did. */
export interface Ran {
  readonly status: number;
  readonly stdout: string;
  readonly stderr: string;
}

/** Run one command line inside the test. */
export const ran = async (
  argv: readonly string[],
  input = '',
  env: Readonly<Record<string, string>> = {},
): Promise<Ran> => {
  const kept = { stdout: '', stderr: '' };
  const sink = (name: 'stdout' | 'stderr') =>
    new Writable({
      write: (chunk, _encoding, done) => {
        kept[name] += String(chunk);
        done();
      },
    });
  const status = await main(argv, {
    stdin: Readable.from(input === '' ? [] : [Buffer.from(input)]),
    stdout: sink('stdout'),
    stderr: sink('stderr'),
    env,
  });
  return { status, ...kept };
};
