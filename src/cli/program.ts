import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Command as Commander, CommanderError, Help, Option } from 'commander';
import { defaultsPath } from '../host/defaults-file.js';
import { STANDARD_INPUT } from '../host/log-bytes.js';
import { cleanText } from '../report/clean-text.js';
import { UserError } from '../units/user-error.js';
import type { ClubDefaults } from './club-defaults.js';
import type { Command } from './command.js';
import { COMMANDS } from './commands/index.js';
import { type Flag, longName } from './flag.js';
import { openSession } from './session.js';
import { BATCH, LOGS, REPORTING } from './shared-flags.js';
import type { Streams } from './streams.js';
import { VERSION } from './version.js';

/** What each exit status means; help and the manual print it. */
export const EXIT_STATUS: readonly (readonly [number, string])[] = [
  [0, 'done'],
  [1, 'done, and a rule of check was broken, or --strict met a warning or an error'],
  [2, 'nothing done: wrong usage, or an input file other than a log is not valid'],
  [3, 'done for the rest, but at least one log could not be read'],
];

const optionOf = (name: string, flag: Flag<unknown>): Option => {
  const value = flag.value === null ? '' : ` <${flag.value}>`;
  const notes = [
    ...(flag.choices.length > 0 ? [`one of ${flag.choices.join(', ')}`] : []),
    ...(flag.usual === null ? [] : [`default ${flag.usual}`]),
  ];
  return new Option(
    `${longName(name)}${value}`,
    notes.length > 0 ? `${flag.help} (${notes.join('; ')})` : flag.help,
  );
};

/** Reads what commander collected; a flag such as `--no-color` comes from it as `color: false`. */
const readFlag = (name: string, flag: Flag<unknown>, given: Readonly<Record<string, unknown>>): unknown => {
  if (name.startsWith('no')) return given[`${name.charAt(2).toLowerCase()}${name.slice(3)}`] === false;
  const value = given[name];
  if (value === undefined || value === false) return flag.absent;
  try {
    return flag.read(String(value));
  } catch (error) {
    if (error instanceof UserError) throw new UserError(`${longName(name)}: ${error.message}`);
    throw error;
  }
};

/** The club's defaults for a command line; what reads them is loaded where there are any. */
const defaultsFor = async (
  operands: readonly string[],
  { flags }: Command,
  given: Readonly<Record<string, unknown>>,
  { env }: Streams,
): Promise<ClubDefaults | null> => {
  const path = defaultsPath(operands, env);
  if (path === null) return null;
  const { clubDefaults } = await import('./club-defaults.js');
  return clubDefaults(path, flags, new Set(Object.keys(given)));
};

const COMMON: ReadonlySet<Flag<unknown>> = new Set(Object.values({ ...REPORTING, ...LOGS, ...BATCH }));

/** Options that many commands share, in a few lines: the manual explains them. */
const commonOptions = ({ flags }: Command): string[] => {
  const names = Object.entries(flags).flatMap(([name, flag]) =>
    COMMON.has(flag) ? [`${longName(name)}${flag.value === null ? '' : ` ${flag.value}`}`] : [],
  );
  if (names.length === 0) return [];
  const lines = [''];
  for (const name of names) {
    const last = lines.at(-1)!;
    if (last.length + name.length + 2 > 76) lines.push(`${name}, `);
    else lines[lines.length - 1] = `${last}${name}, `;
  }
  return [
    '',
    'Options of all commands (man thole explains them):',
    ...lines.map((line, i) => `  ${i === lines.length - 1 ? line.replace(/, $/, '') : line.trimEnd()}`),
  ];
};

/** The folder that holds the samples, which the examples read. */
const SAMPLES_IN = new URL('..', import.meta.url);

/** Where the samples of examples are, for one who is elsewhere. */
const samplesNote = ({ examples }: Command): string[] =>
  !examples.some(({ line }) => line.includes(' samples')) || existsSync('samples')
    ? []
    : [`The samples are in ${fileURLToPath(SAMPLES_IN)}: try the examples there.`];

const helpTail = (made: Command, wrapped: (text: string) => string): string =>
  [
    ...commonOptions(made),
    '',
    wrapped(made.about),
    '',
    made.examples.length > 1 ? 'Examples:' : 'Example:',
    ...made.examples.flatMap(({ line, does }) => [`  $ ${line}`, `      ${does}`]),
    ...samplesNote(made),
    '',
    'Exit status: 0 done, 1 a rule broken, 2 wrong usage, 3 a log not read.',
  ].join('\n');

/** Whatever a command line names that may be a file it reads. */
const filesOf = (
  { completes = [] }: Command,
  options: Readonly<Record<string, unknown>>,
  operands: readonly string[],
): readonly string[] =>
  [
    ...operands,
    ...Object.entries(options)
      .filter(([name]) => name !== 'out' && !completes.includes(name))
      .flatMap(([, value]) => value),
  ].filter((value): value is string => typeof value === 'string');

const addCommand = (program: Commander, made: Command, streams: Streams, done: (status: number) => void) => {
  const sub = program
    .command(made.name)
    .summary(made.summary)
    .description(`${made.summary.charAt(0).toUpperCase()}${made.summary.slice(1)}.`);
  for (const operand of made.operands) sub.argument(operand);
  const shared = new Set<Option>();
  for (const [name, flag] of Object.entries(made.flags)) {
    const option = optionOf(name, flag);
    if (COMMON.has(flag)) shared.add(option);
    sub.addOption(option);
  }
  // Shared options stand in the lines below and not in the list, and a mistyped one is still suggested.
  sub.configureHelp({
    formatHelp: (of, help) => {
      help.visibleOptions = (one) =>
        Help.prototype.visibleOptions.call(help, one).filter((option) => !shared.has(option));
      return Help.prototype.formatHelp.call(help, of, help);
    },
  });
  sub.addHelpText('after', () => {
    const help = sub.createHelp();
    return helpTail(made, (text) => help.boxWrap(text, helpWidth(streams)));
  });
  sub.action(async () => {
    const given = sub.opts();
    const club = await defaultsFor(sub.args, made, given, streams);
    const options: Readonly<Record<string, unknown>> & {
      readonly club: ClubDefaults | null;
      readonly strict?: boolean;
      readonly quiet?: boolean;
    } = {
      ...Object.fromEntries(
        Object.entries(made.flags).map(([name, flag]) => [name, readFlag(name, flag, given)]),
      ),
      ...club?.options,
      club,
    };
    const onInput = filesOf(made, options, sub.args).filter((file) => file === STANDARD_INPUT).length;
    if (onInput > 1) throw new UserError('standard input (-) is one file: give the others by their names');
    const session = openSession(streams, options);
    session.guard(filesOf(made, options, sub.args));
    await made.run(session, options, sub.args);
    done(session.status());
  });
};

/** Columns that help is laid out for. */
const helpWidth = ({ stdout }: Streams): number => Math.min(stdout.columns ?? 80, 100);

const programOf = (streams: Streams): Commander =>
  new Commander('thole')
    .description('Analyses the logs that rowing boats and paddled craft bring home.')
    .version(VERSION, '--version', 'print the version')
    .exitOverride()
    .configureOutput({
      writeOut: (text) => streams.stdout.write(text),
      writeErr: (text) => streams.stderr.write(text),
      outputError: (text, write) =>
        write(
          `${cleanText(
            text
              .trim()
              .replace(/^error: /, 'thole: error: ')
              .replaceAll('\n', ' '),
          )}\n`,
        ),
      getOutHelpWidth: () => helpWidth(streams),
    });

/** Carry out one command line and say its exit status. */
export const execute = async (argv: readonly string[], streams: Streams): Promise<number> => {
  const program = programOf(streams);
  const [wanted = '', asked] = argv;
  if (wanted === 'help' && asked !== undefined && asked !== 'help' && !asked.startsWith('-'))
    return execute(Object.hasOwn(COMMANDS, asked) ? [asked, '--help'] : [asked], streams);
  const called = Object.hasOwn(COMMANDS, wanted) ? [wanted] : Object.keys(COMMANDS);
  let status = 0;
  for (const name of called)
    addCommand(program, await COMMANDS[name]!(), streams, (ended) => {
      status = ended;
    });
  try {
    if (argv.length === 0) {
      program.outputHelp({ error: true });
      return 2;
    }
    await program.parseAsync([...argv], { from: 'user' });
    return status;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2;
    if (error instanceof UserError) {
      streams.stderr.write(`thole: error: ${cleanText(error.message)}\n`);
      return 2;
    }
    const stack = String(error instanceof Error ? error.stack : error)
      .split('\n')
      .map(cleanText)
      .join('\n');
    streams.stderr.write(
      `${stack}\nthole: this is a fault of thole itself; please report it with the lines above and, if you can, the log.\n`,
    );
    return 2;
  }
};
