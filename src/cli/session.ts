import type { WarningRow } from '../contract/envelope.js';
import { writeWhole } from '../host/write-whole.js';
import type { LogFault } from '../recording/index.js';
import { warningLines } from '../report/warning-lines.js';
import type { Streams } from './streams.js';

/** What a command needs of the session: everything goes out through it, and it knows the exit status. */
export interface Session {
  readonly streams: Streams;
  /** Writes a finished text to standard output, or to the file of `--out`. */
  readonly emit: (text: string, options: { readonly out: string | null }) => Promise<void>;
  /** Says what is doubtful on standard error; with `--strict` it makes the exit status 1. */
  readonly warn: (warnings: readonly WarningRow[]) => void;
  /** Says that a log could not be read, and makes the exit status 3. */
  readonly fault: (fault: LogFault) => void;
  /** Notes that a rule was broken: exit status 1 unless a log could not be read. */
  readonly broken: () => void;
  readonly status: () => number;
}

/** The session of one command line. */
export const openSession = (
  streams: Streams,
  options: { readonly strict?: boolean; readonly quiet?: boolean },
): Session => {
  let [unreadable, failed] = [false, false];
  const say = (lines: readonly string[]) => {
    for (const line of lines) streams.stderr.write(`thole: ${line}\n`);
  };
  return {
    streams,
    emit: async (text, { out }) => {
      if (out === null) streams.stdout.write(text);
      else await writeWhole(out, text);
    },
    warn: (warnings) => {
      if (warnings.length > 0 && options.strict === true) failed = true;
      if (options.quiet !== true) say(warningLines(warnings));
    },
    fault: (fault) => {
      unreadable = true;
      say(warningLines([fault]));
    },
    broken: () => {
      failed = true;
    },
    status: () => (unreadable ? 3 : failed ? 1 : 0),
  };
};
