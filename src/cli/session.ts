import type { WarningRow } from '../contract/envelope.js';
import { severityOf } from '../contract/severity.js';
import { isSameFile } from '../host/plain-file.js';
import type { LogFault } from '../recording/index.js';
import { type Format, reportText } from '../report/report.js';
import type { Reading } from '../report/section.js';
import type { View } from '../report/view.js';
import { graded, warningLines } from '../report/warning-lines.js';
import { UserError } from '../units/user-error.js';
import type { OptionsOf } from './flag.js';
import { possibleAnswer } from './possible-answer.js';
import type { REPORTING } from './shared-flags.js';

/** How a result is to be reported. */
type Asked = Omit<OptionsOf<typeof REPORTING>, 'format'> & { readonly format: Format | 'html' };

import type { Streams } from './streams.js';
import { VERSION } from './version.js';

/** What a command needs of the session: everything goes out through it, and it knows the exit status. */
export interface Session {
  readonly streams: Streams;
  /** Holds that none of the files that are read is the one to be written. @throws UserError where one is */
  readonly guard: (files: readonly string[]) => void;
  /** Writes a finished text to standard output, or to the file of `--out`. */
  readonly emit: (text: string, options: { readonly out: string | null }) => Promise<void>;
  /** Writes a result in the format that was asked, and says its warnings. */
  readonly report: <Result extends { readonly schema: string; readonly warnings: readonly WarningRow[] }>(
    view: View<Result>,
    result: Result,
    options: Asked,
  ) => Promise<void>;
  /** Says what is doubtful or assumed on standard error; with `--strict` a warning makes the exit status 1. */
  readonly warn: (warnings: readonly WarningRow[]) => void;
  /** Says that a log could not be read, and makes the exit status 3. */
  readonly fault: (fault: LogFault) => void;
  /** The logs that could not be read so far. */
  readonly unread: () => readonly LogFault[];
  /** Says how far a batch is, on a terminal. */
  readonly progress: (done: number, of: number) => void;
  /** Notes that a rule was broken: exit status 1 unless a log could not be read. */
  readonly broken: () => void;
  readonly status: () => number;
}

/** Options that decide in which zone times are shown. */
export type ZoneOptions = Pick<OptionsOf<typeof REPORTING>, 'tz' | 'out'> & { readonly format: string };

/** The zone that was given; else the computer's for a person at a terminal, and UTC for a file or a pipe. */
export const zoneOf = ({ stdout }: Streams, { tz, out, format }: ZoneOptions): string => {
  if (tz !== null) return tz;
  const read = format === 'table' && out === null && stdout.isTTY === true;
  return read ? Intl.DateTimeFormat().resolvedOptions().timeZone : 'UTC';
};

/** How tables are to look here. */
const readingOf = (streams: Streams, options: Asked): Reading => {
  const { NO_COLOR, TERM } = streams.env;
  const plain = options.noColor || (NO_COLOR !== undefined && NO_COLOR !== '') || TERM === 'dumb';
  return {
    speed: options.speed,
    zone: zoneOf(streams, options),
    plain,
    bold: !plain && options.out === null && streams.stdout.isTTY === true,
    width: Math.max(80, streams.stdout.columns ?? 80),
  };
};

/** The session of one command line. */
export const openSession = (
  streams: Streams,
  options: { readonly strict?: boolean; readonly quiet?: boolean; readonly out?: string | null },
): Session => {
  const faults: LogFault[] = [];
  const known = new Set<string>();
  /** Files among logs that are none; said with the notes. */
  const left: WarningRow[] = [];
  let logCount = 1;
  let failed = false;
  let showing = false;
  const say = (lines: readonly string[]) => {
    if (showing) streams.stderr.write('\r\u001b[K');
    showing = false;
    for (const line of lines) streams.stderr.write(`thole: ${line}\n`);
  };
  const emit: Session['emit'] = async (text, { out }) => {
    if (out === null) {
      streams.stdout.write(text);
      return;
    }
    const { writeWhole } = await import('../host/write-whole.js');
    await writeWhole(out, text);
  };
  const warn: Session['warn'] = (said) => {
    const warnings = [...left.splice(0), ...said];
    if (options.strict === true && warnings.map(graded).some(({ severity }) => severity !== 'note'))
      failed = true;
    if (options.quiet !== true) say(warningLines(warnings, logCount));
  };
  const fault: Session['fault'] = (said) => {
    // A command may read a log twice, for itself and as part of a season: its fault is one.
    const key = JSON.stringify([said.file, said.message]);
    if (known.has(key)) return;
    known.add(key);
    if (severityOf(said.code) === 'note' && logCount > 1) {
      left.push(said);
      return;
    }
    faults.push(said);
    say(warningLines([{ ...said, severity: 'error' }], 1));
  };
  const guard: Session['guard'] = (files) => {
    const { out } = options;
    const read = out ? files.find((file) => isSameFile(file, out)) : undefined;
    if (read !== undefined)
      throw new UserError(`--out ${out} would overwrite ${read}, which is read here: name another file`);
  };
  return {
    streams,
    guard,
    emit,
    warn,
    fault,
    unread: () => faults,
    progress: (done, of) => {
      logCount = Math.max(logCount, of);
      if (of < 2 || options.quiet === true || streams.stderr.isTTY !== true) return;
      streams.stderr.write(done < of ? `\r${done} of ${of} logs` : '\r\u001b[K');
      showing = done < of;
    },
    broken: () => {
      failed = true;
    },
    report: async (view, result, asked) => {
      const possible = await possibleAnswer(null, result);
      if ('fault' in possible) return fault(possible);
      const unread = faults.map(({ code, file, where, message }): WarningRow => {
        return { severity: 'error', code, file, where, message };
      });
      const whole: typeof possible = {
        ...possible,
        warnings: [...unread, ...possible.warnings].map(graded),
      };
      const reading = readingOf(streams, asked);
      if (asked.format === 'html') {
        const { pageText } = await import('../report/page/page.js');
        await emit(await pageText(view, whole, reading, `thole ${VERSION}`), asked);
      } else {
        const dialect = { decimal: asked.decimal ?? 'point', times: asked.times ?? 'seconds' } as const;
        await emit(await reportText(view, whole, asked.format, reading, dialect), asked);
      }
      warn(possible.warnings);
    },
    status: () => {
      if (left.length > 0) warn([]);
      return faults.length > 0 ? 3 : failed ? 1 : 0;
    },
  };
};
