import type { WarningRow } from '../contract/envelope.js';
import { noteWords, type Severity, severityOf } from '../contract/severity.js';
import { grouped } from '../units/grouped.js';
import { cleanText } from './clean-text.js';

/** A message with its severity, as results carry it. */
export type Graded = WarningRow & { readonly severity: Severity };

/** How much is said before the rest is only counted. */
export const WARNING_LINES = Object.freeze({
  /** Messages of one kind about one log, lines; 2 to 5. */
  ofOneLog: 3,
  /** Logs that a line about several names; 2 to 5. */
  named: 3,
  /** Lines of warnings about several logs, or one less than there are logs where that is more; 2 to 5. */
  ofSeveral: 3,
});

/** A message with its severity, which goes by its code. */
export const graded = (row: WarningRow): Graded => ({
  severity: row.severity ?? severityOf(row.code),
  ...row,
});

const groups = <Item>(items: readonly Item[], name: (item: Item) => string): Item[][] => [
  ...grouped(items, name).values(),
];

/** A message as a whole sentence, however it was written. */
const sentence = (message: string): string =>
  `${message.charAt(0).toUpperCase()}${message.slice(1)}${/[.!?]$/.test(message) ? '' : '.'}`;

const line = (severity: Severity, ...parts: readonly (string | null)[]): string =>
  cleanText([severity, ...parts].filter((part) => part !== null).join(': '));

const lineOf = ({ severity, file, where, message }: Graded): string =>
  line(severity, file, where, sentence(message));

const filesOf = (rows: readonly WarningRow[]): string[] => [
  ...new Set(rows.flatMap(({ file }) => (file === null ? [] : [file]))),
];

const ofOneLog = (alike: readonly Graded[]): string[] => {
  const { ofOneLog: most } = WARNING_LINES;
  if (alike.length <= most + 1) return alike.map(lineOf);
  const { severity, file, code } = alike[0]!;
  return [
    ...alike.slice(0, most).map(lineOf),
    line(severity, file, `${alike.length - most} more of this kind (${code})`),
  ];
};

/** One line for what is said of several logs: how many, which, and the message of the first. */
const ofLogs = (alike: readonly Graded[], files: readonly string[]): string => {
  const { named } = WARNING_LINES;
  const names =
    files.length <= named + 1 ? files : [...files.slice(0, named), `${files.length - named} more`];
  const { severity, where, message } = alike[0]!;
  return line(severity, `${files.length} logs (${names.join(', ')})`, where, sentence(message));
};

/** Warnings by kind; of many kinds about several logs the first are said and the others named. */
const warningsOf = (warnings: readonly Graded[], logCount: number): string[] => {
  const kinds = groups(warnings, ({ code }) => code).map((alike) => {
    const files = filesOf(alike);
    return {
      lines: files.length > 1 ? [ofLogs(alike, files)] : ofOneLog(alike),
      code: alike[0]!.code,
      count: alike.length,
    };
  });
  const all = kinds.flatMap(({ lines }) => lines);
  const most = Math.max(WARNING_LINES.ofSeveral, logCount - 1);
  if (logCount < 2 || all.length <= most) return all;
  const shown = kinds.slice(0, most - 1).map(({ lines, code, count }) => {
    const more = lines.length > 1 ? ` (${count} of this kind: ${code})` : '';
    return `${lines[0]!}${more}`;
  });
  const rest = kinds.slice(most - 1).map(({ code, count }) => (count > 1 ? `${code} (${count})` : code));
  return rest.length === 0
    ? shown
    : [...shown, line('warning', `also ${rest.join(', ')}; --format json has every message`)];
};

/** All notes in one closing line; one alone in full. */
const notesOf = (notes: readonly Graded[], logCount: number): string[] => {
  const kinds = groups(notes, ({ code }) => code);
  const [first] = kinds;
  if (first === undefined) return [];
  if (kinds.length === 1 && first.length === 1) return [lineOf(first[0]!)];
  const words = kinds.map((alike) => {
    const files = filesOf(alike).length;
    return `${noteWords(alike[0]!.code)}${logCount > 1 && files > 0 ? ` (${files} ${files === 1 ? 'log' : 'logs'})` : ''}`;
  });
  return [line('note', `${words.join('; ')}. --format json has the details.`)];
};

/**
 * Messages as lines for a person, each with its severity in front: errors one by one; warnings by kind, what is said
 * of several logs once; notes in one closing line.
 * @param logCount how many logs the result is of
 */
export const warningLines = (rows: readonly WarningRow[], logCount: number): string[] => {
  const all = rows.map(graded);
  const of = (severity: Severity) => all.filter((row) => row.severity === severity);
  return [
    ...of('error').map(lineOf),
    ...warningsOf(of('warning'), logCount),
    ...notesOf(of('note'), logCount),
  ];
};
