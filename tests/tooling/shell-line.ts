import { execFile } from 'node:child_process';
import { mkdtempSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

/** What a shell line gave. */
export interface Given {
  readonly stdout: string;
  readonly stderr: string;
  /** Exit status and a line end, as it stands in a golden file. */
  readonly status: string;
}

/** A shell in which `thole` is the built command, with a home of its own that is empty at the start. */
export interface Shell {
  readonly home: string;
  readonly run: (line: string) => Promise<Given>;
  readonly close: () => void;
}

/**
 * Open such a shell; lines run at the top of the project.
 * @param first folders whose commands go before the machine's own
 */
export const openShell = (first: readonly string[] = []): Shell => {
  const home = mkdtempSync(join(tmpdir(), 'thole-'));
  symlinkSync(resolve('bin/thole.js'), join(home, 'thole'));
  const env = { PATH: [home, ...first, process.env.PATH].join(':'), HOME: home, TMPDIR: home, LC_ALL: 'C' };
  return {
    home,
    run: (line) =>
      new Promise((done) => {
        const options = { env, maxBuffer: 64 * 1024 ** 2 };
        execFile('bash', ['-o', 'pipefail', '-c', line], options, (error, stdout, stderr) =>
          done({ stdout, stderr, status: `${error === null ? 0 : error.code}\n` }),
        );
      }),
    close: () => rmSync(home, { recursive: true }),
  };
};
