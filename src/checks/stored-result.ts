import { parseInputFile } from '../contract/input-file.js';
import { RESULTS } from '../contract/schemas.js';
import type { WarningCode } from '../contract/severity.js';
import { UserError } from '../units/user-error.js';
import type { Results } from './figure.js';

/** What a stored result tells of one subject: a log of it, or all of it. */
export interface Subject {
  /** The log, as the result names it; where it is about several together, the file of the result. */
  readonly file: string;
  readonly results: Results;
}

/** A stored result: what it tells, or why it cannot be used. */
export type StoredResult =
  | { readonly subjects: readonly Subject[] }
  | { readonly code: WarningCode; readonly why: string };

/** Results with a row for each log: their figures are those of one row. */
const ROWS: Readonly<Record<string, string>> = { inspect: 'recordings', outing: 'outings' };

interface Row {
  readonly file: string | null;
}

/** A result with a row for each log, log by log, each with the warnings that are about it. */
const apart = (command: string, list: string, result: Readonly<Record<string, unknown>>): Subject[] =>
  (result[list] as readonly Row[]).map((row) => ({
    file: row.file ?? '-',
    results: {
      [command]: {
        ...result,
        [list]: [row],
        warnings: (result.warnings as readonly Row[]).filter(
          ({ file }) => file === null || file === row.file,
        ),
      },
    },
  }));

/** A valid result. It is read the fast way; only where that fails is it searched for the line that is wrong. */
const storedValue = (command: string, text: string, name: string): Readonly<Record<string, unknown>> => {
  const schema = RESULTS[command]!;
  try {
    const read = schema.safeParse(JSON.parse(text));
    if (read.success) return read.data as Readonly<Record<string, unknown>>;
  } catch {
    // It is no JSON: the slow way says where.
  }
  return parseInputFile(schema, text, name).value as Readonly<Record<string, unknown>>;
};

/**
 * Read a result that a command wrote with `--format json`.
 * @param name the file, for messages
 */
export const parseStoredResult = (text: string, name: string): StoredResult => {
  const command = /^\s*\{\s*"schema"\s*:\s*"thole\/([a-z_]+)\/1"/.exec(text)?.[1];
  if (command === undefined || !Object.hasOwn(RESULTS, command))
    return {
      code: 'not-a-result',
      why: 'the file is JSON, and neither a log nor a result of this version: make one with --format json --out',
    };
  try {
    const result = storedValue(command, text, name);
    const list = ROWS[command];
    return {
      subjects:
        list === undefined ? [{ file: name, results: { [command]: result } }] : apart(command, list, result),
    };
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    return {
      code: 'damaged-result',
      why: `the stored result cannot be used, make it again: ${error.message.replace(`${name}, `, '')}`,
    };
  }
};

/** Whether bytes may be a stored result: JSON with one value in braces, which no log is. */
export const looksStored = (bytes: Uint8Array): boolean =>
  /^\uFEFF?\s*\{/.test(new TextDecoder().decode(bytes.subarray(0, 256)));
