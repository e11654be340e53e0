import type { Command } from '../../src/cli/command.js';
import { type Flag, longName } from '../../src/cli/flag.js';
import { EXIT_STATUS } from '../../src/cli/program.js';
import { BATCH, LOGS, REPORTING } from '../../src/cli/shared-flags.js';
import { WARNING_CODES } from '../../src/contract/severity.js';
import { roffText } from '../tooling/roff-text.js';

const SHARED = { ...REPORTING, ...LOGS, ...BATCH };
const SHARED_RECORDS: ReadonlySet<Flag<unknown>> = new Set(Object.values(SHARED));

const sentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;

const flagEntry = ([name, flag]: readonly [string, Flag<unknown>]): string => {
  const value = flag.value === null ? '' : ` \\fI${roffText(flag.value)}\\fR`;
  const notes = [
    ...(flag.choices.length > 0 ? [`One of ${flag.choices.join(', ')}.`] : []),
    ...(flag.usual === null ? [] : [`The default is ${flag.usual}.`]),
  ];
  return `.TP\n\\fB${roffText(longName(name))}\\fR${value}\n${roffText([sentence(flag.help), ...notes].join('\n'))}`;
};

const pageOf = (name: string): string => `.BR thole\\-${roffText(name)} (1)`;

/** What follows from a command in its own page: name, synopsis, description, options, examples. */
export const commandSections = (command: Command): string => {
  const flags = Object.entries(command.flags);
  const own = flags.filter(([, flag]) => !SHARED_RECORDS.has(flag));
  const taken = flags.filter(([, flag]) => SHARED_RECORDS.has(flag));
  return [
    '.SH NAME',
    `thole\\-${roffText(command.name)} \\- ${roffText(command.summary)}`,
    '.SH SYNOPSIS',
    `.B thole ${roffText(command.name)}`,
    ['[\\fIoptions\\fR]', ...command.operands.map(roffText)].join(' '),
    '.SH DESCRIPTION',
    roffText(command.about),
    ...(own.length === 0 ? [] : ['.SH OPTIONS', ...own.map(flagEntry)]),
    ...(taken.length === 0
      ? []
      : [
          '.SH SHARED OPTIONS',
          `${taken.map(([name]) => `\\fB${roffText(longName(name))}\\fR`).join(', ')}: see`,
          '.BR thole (1).',
        ]),
    '.SH EXAMPLES',
    ...command.examples.flatMap(({ line, does }) => [
      '.PP',
      `${roffText(`${does.charAt(0).toUpperCase()}${does.slice(1)}`)}:`,
      '.PP',
      '.EX',
      `    ${roffText(line)}`,
      '.EE',
    ]),
  ].join('\n');
};

/** The sections of the main page that follow from the commands: their list, shared options, exit status. */
export const manualSections = (commands: readonly Command[]): string =>
  [
    '.SH COMMANDS',
    ...commands.map(({ name, summary }) => `.TP\n${pageOf(name)}\n${roffText(sentence(summary))}`),
    '.SH SHARED OPTIONS',
    'Each command takes those that make sense for it.',
    ...Object.entries(SHARED).map(flagEntry),
    '.SH EXIT STATUS',
    'Where several apply: 2, then 3, then 1.',
    ...EXIT_STATUS.map(([status, meaning]) => `.TP\n.B ${status}\n${roffText(meaning)}`),
  ].join('\n');

/** Every kind of message, by severity. */
export const messageSections = (): string =>
  (['error', 'warning', 'note'] as const)
    .flatMap((severity) => [
      `.SS ${severity}`,
      roffText(
        WARNING_CODES.filter(([, own]) => own === severity)
          .map(([code]) => code)
          .sort()
          .join(', '),
      ),
    ])
    .join('\n');
