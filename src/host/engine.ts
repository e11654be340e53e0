import { setFlagsFromString } from 'node:v8';

/** Other versions of Node.js than the one that this was measured with may not know these words, and go without. */
const isMeasured = process.versions.node.startsWith('20.');

/**
 * Runs are short beside what it takes to compile well what they do: code is compiled later, less of it into one piece,
 * and loops as they stand. Strokes of 9 minutes take a sixth less time so, strokes of 90 minutes no more.
 */
const FLAGS: readonly string[] = isMeasured
  ? ['--interrupt-budget=150000', '--max-inlined-bytecode-size-cumulative=200', '--no-turbo-loop-peeling']
  : [];

/** The same as Node.js 20 sets them (`node --v8-options`). */
const USUAL: readonly string[] = isMeasured
  ? ['--interrupt-budget=67584', '--max-inlined-bytecode-size-cumulative=920', '--turbo-loop-peeling']
  : [];

let isOwn = false;

/** Say that this process is the program's own: the engine of another one, that uses a part of it, is left alone. */
export const ownProcess = (): void => {
  isOwn = true;
};

/**
 * Set the engine for the work on logs. Not before: what is kept compiled, of the program and of Node.js itself, is
 * kept for an engine without settings, and what is loaded from here on is compiled anew.
 */
export const setEngine = (): void => {
  if (isOwn) for (const flag of FLAGS) setFlagsFromString(flag);
};

/** Set the engine as it was at the start, so that what it compiled until now fits the start of another process. */
export const resetEngine = (): void => {
  for (const flag of USUAL) setFlagsFromString(flag);
};

/**
 * How the engine of a worker is started. Where every core is at work none is left to compile and to collect garbage
 * beside it. It can only be set as a process starts, which is why workers are no threads.
 */
export const WORKER_FLAGS: readonly string[] = isMeasured
  ? ['--single-threaded-gc', '--no-concurrent-recompilation']
  : [];
