import type { Command } from '../../src/cli/command.js';
import { type Flag, longName } from '../../src/cli/flag.js';
import { EXIT_STATUS } from '../../src/cli/program.js';

/** Text that roff prints as it stands. */
const roff = (text: string): string =>
  text
    .replaceAll('\\', '\\e')
    .replaceAll('-', '\\-')
    .replace(/^([.'])/gm, '\\&$1')
    .replaceAll('…', '...');

const flagEntry = ([name, flag]: readonly [string, Flag<unknown>]): string => {
  const value = flag.value === null ? '' : ` \\fI${roff(flag.value)}\\fR`;
  const notes = [
    ...(flag.choices.length > 0 ? [`One of ${flag.choices.join(', ')}.`] : []),
    ...(flag.usual === null ? [] : [`The default is ${flag.usual}.`]),
  ];
  const help = `${flag.help.charAt(0).toUpperCase()}${flag.help.slice(1)}.`;
  return `.TP\n\\fB${roff(longName(name))}\\fR${value}\n${roff([help, ...notes].join('\n'))}`;
};

const flagsOf = (commands: readonly Command[]): (readonly [string, Flag<unknown>])[] =>
  commands.flatMap((command) => Object.entries(command.flags));

/** A flag that several commands share is the same record in each of them. */
const sharedFlags = (commands: readonly Command[]): readonly (readonly [string, Flag<unknown>])[] => {
  const all = flagsOf(commands);
  return all.filter(
    ([, flag], i) =>
      all.filter(([, other]) => other === flag).length > 1 &&
      all.findIndex(([, other]) => other === flag) === i,
  );
};

const commandEntry = (command: Command, shared: ReadonlySet<Flag<unknown>>): string => {
  const own = Object.entries(command.flags).filter(([, flag]) => !shared.has(flag));
  const taken = Object.entries(command.flags).filter(([, flag]) => shared.has(flag));
  return [
    `.SS thole ${[command.name, '[options]', ...command.operands].map(roff).join(' ')}`,
    roff(`${command.summary.charAt(0).toUpperCase()}${command.summary.slice(1)}.`),
    roff(command.about),
    ...own.map(flagEntry),
    ...(taken.length === 0
      ? []
      : ['.PP', `Shared options: ${taken.map(([name]) => `\\fB${roff(longName(name))}\\fR`).join(', ')}.`]),
    ...command.examples.flatMap(({ line, does }) => [
      '.PP',
      `${roff(`${does.charAt(0).toUpperCase()}${does.slice(1)}`)}:`,
      '.PP',
      '.EX',
      `    ${roff(line)}`,
      '.EE',
    ]),
  ].join('\n');
};

/** The sections of the manual that follow from the commands: commands, shared options, exit status. */
export const manualSections = (commands: readonly Command[]): string => {
  const shared = sharedFlags(commands);
  const records = new Set(shared.map(([, flag]) => flag));
  return [
    '.SH COMMANDS',
    ...commands.map((command) => commandEntry(command, records)),
    '.SH SHARED OPTIONS',
    ...shared.map(flagEntry),
    '.SH EXIT STATUS',
    'Where several apply: 2, then 3, then 1.',
    ...EXIT_STATUS.map(([status, meaning]) => `.TP\n.B ${status}\n${roff(meaning)}`),
  ].join('\n');
};
