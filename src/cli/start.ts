import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { Script } from 'node:vm';
import { compiledFile, keepCompiled, readCompiled } from '../host/compiled-code.js';
import { earlyRead } from '../host/early-read.js';
import { resetEngine } from '../host/engine.js';
import type * as Program from './main.js';
import { VERSION } from './version.js';

// Built as a script of its own, beside the program: what starts it.

/** Hash of the program's script, which the build puts in. */
declare const PROGRAM_HASH: string;

/** The program: all of it is one script. */
const PROGRAM = join(__dirname, 'main.cjs');

/**
 * The program, with what the engine compiled of it in an earlier process for the same use; where there is nothing
 * that fits, it is kept when this process ends well. Without it a start takes 30 ms more and is otherwise the same.
 * @param use what the process is for: the name of a command, or of a worker's side
 */
export const loaded = (host: NodeJS.Process, use: string): typeof Program => {
  const engineOptions = [...host.execArgv, host.env.NODE_OPTIONS ?? ''].join(' ');
  const file = compiledFile(host.env, { program: PROGRAM_HASH, use, engineOptions });
  const cachedData = readCompiled(file);
  // The build writes ASCII alone, so that nothing is to be decoded.
  const script = new Script(
    `(function (exports, require, module, __filename) {${readFileSync(PROGRAM, 'latin1')}\n})`,
    { filename: PROGRAM, ...(cachedData && { cachedData }) },
  );
  if (cachedData === undefined || script.cachedDataRejected)
    host.on('exit', (status) => {
      if (status !== 0) return;
      resetEngine();
      keepCompiled(file, script);
    });
  const module = { exports: {} as typeof Program };
  script.runInThisContext()(module.exports, createRequire(PROGRAM), module, PROGRAM);
  return module.exports;
};

/** Run the process's own command line. The version is said without the program. */
export const start = (host: NodeJS.Process): void => {
  const [name = ''] = host.argv.slice(2);
  if (name === '--version' && host.argv.length === 3) {
    host.stdout.write(`${VERSION}\n`);
    return;
  }
  const early = earlyRead(host.argv.slice(2));
  void loaded(host, /^[a-z]{1,12}$/.test(name) ? name : 'other').run(host, early);
};
