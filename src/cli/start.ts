import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { Script } from 'node:vm';
import { earlyRead } from '../host/early-read.js';
import type * as Program from './main.js';
import { VERSION } from './version.js';

// Built as a script of its own, beside the program: what starts it.

/** The program: all of it is one script. */
const PROGRAM = join(__dirname, 'main.cjs');

/** What the engine made of that script when the program was built. */
export const COMPILED = join(__dirname, 'main.compiled');

const compiled = (): Buffer | undefined => {
  try {
    return readFileSync(COMPILED);
  } catch {
    return undefined;
  }
};

/**
 * The program, and the script that it came from. What another version of the engine made of it is left aside, which
 * costs 30 ms and changes nothing else.
 */
export const loaded = (): { readonly program: typeof Program; readonly script: Script } => {
  const cachedData = compiled();
  // The build writes ASCII alone, so that nothing is to be decoded.
  const script = new Script(
    `(function (exports, require, module, __filename) {${readFileSync(PROGRAM, 'latin1')}\n})`,
    { filename: PROGRAM, ...(cachedData && { cachedData }) },
  );
  const module = { exports: {} as typeof Program };
  script.runInThisContext()(module.exports, createRequire(PROGRAM), module, PROGRAM);
  return { program: module.exports, script };
};

/** Run the process's own command line. The version is said without the program. */
export const start = (host: NodeJS.Process): void => {
  if (host.argv[2] === '--version' && host.argv.length === 3) {
    host.stdout.write(`${VERSION}\n`);
    return;
  }
  const early = earlyRead(host.argv.slice(2));
  void loaded().program.run(host, early);
};
