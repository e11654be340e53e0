import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import type { Script } from 'node:vm';
import { cacheFolder } from './cache-folder.js';

/** Folders that are made where they are missing: `.cache`, `thole`, `compiled`. */
const LEVELS = 3;

/** How many files are kept: one a command, for two versions of the program. */
const MOST_KEPT = 40;

/** What decides whether compiled code fits: its program, what it was compiled for, and by which engine. */
export interface CompiledFor {
  /** Hash of the program's script. */
  readonly program: string;
  /** What the process is for, as the name of a command: each compiles other functions. */
  readonly use: string;
  /** Options of the engine, which it compiles by. */
  readonly engineOptions: string;
}

/** Options of the engine as a name (FNV-1a, 32 bits). */
const nameOf = (text: string): string => {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return (hash >>> 0).toString(16);
};

/**
 * The file in the user's cache that keeps compiled code. The engine checks neither the processor that the code is for
 * nor the script that it came from, so the name says both.
 */
export const compiledFile = (
  env: Readonly<Record<string, string | undefined>>,
  { program, use, engineOptions }: CompiledFor,
): string =>
  join(
    cacheFolder(env, null),
    'compiled',
    [
      program,
      process.platform,
      process.arch,
      process.version,
      process.versions.v8,
      nameOf(engineOptions),
      use,
    ].join('_'),
  );

/**
 * Compiled code as it was kept; undefined where there is none that is whole. The engine does not notice damage, so
 * the code is kept twice and the two are compared: 0.1 ms, where loading a checksum takes 9.
 */
export const readCompiled = (file: string): Buffer | undefined => {
  try {
    const twice = readFileSync(file);
    const half = twice.length / 2;
    const code = twice.subarray(0, half);
    return half > 0 && code.equals(twice.subarray(half)) ? code : undefined;
  } catch {
    return undefined;
  }
};

/** The oldest files of a folder beyond those that are kept. */
const prune = (folder: string): void => {
  const files = readdirSync(folder).map((name) => join(folder, name));
  const dated = files.map((file) => ({ file, atMs: statSync(file).mtimeMs }));
  for (const { file } of dated.sort((a, b) => b.atMs - a.atMs).slice(MOST_KEPT))
    rmSync(file, { force: true });
};

/**
 * Make the last folders of a path, where what they lie in is there. Not by the recursive mode of `mkdir`: in a folder
 * that takes none, as /proc, it never ends (Node.js 20).
 */
const makeFolders = (folder: string, levels: number): void => {
  if (existsSync(folder)) return;
  if (levels > 1) makeFolders(dirname(folder), levels - 1);
  mkdirSync(folder);
};

/** Keep what the engine compiled of a script. Where that cannot be written, the next start compiles again. */
export const keepCompiled = (file: string, script: Script): void => {
  const code = script.createCachedData();
  const temporary = `${file}.${process.pid}`;
  try {
    makeFolders(dirname(file), LEVELS);
    writeFileSync(temporary, Buffer.concat([code, code]));
    renameSync(temporary, file);
    prune(dirname(file));
  } catch {
    // a cache that cannot be written is done without
  }
};
