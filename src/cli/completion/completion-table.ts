import type { Command } from '../command.js';
import { type Flag, longName } from '../flag.js';

/** What may stand in a place of a command line. */
export type Candidates =
  | { readonly kind: 'words'; readonly words: readonly string[] }
  /** Files whose names end so; every file where there is no ending. Folders always. */
  | { readonly kind: 'files'; readonly endings: readonly string[] }
  | { readonly kind: 'folders' }
  | { readonly kind: 'none' };

/** An option as completion offers it. */
export interface OptionWords {
  readonly name: string;
  readonly help: string;
  /** What its value may be; null where it takes none. */
  readonly value: Candidates | null;
}

/** A command as completion offers it. */
export interface CommandWords {
  readonly name: string;
  readonly summary: string;
  readonly options: readonly OptionWords[];
  /** What may stand behind it, place by place; the last goes for all that follow. */
  readonly operands: readonly Candidates[];
}

/** Endings of the files that logs come in. */
const LOG_ENDINGS = ['gpx', 'tcx', 'fit', 'nmea', 'csv', 'txt', 'log', 'gz'];

/** Endings of other input files, by what help calls them. */
const ENDINGS: Readonly<Record<string, readonly string[]>> = {
  FILE: LOG_ENDINGS,
  PLAN: ['json', 'csv'],
  ENTRIES: ['csv'],
  SCENARIO: ['json'],
};

const operandCandidates = (operand: string, names: readonly string[]): Candidates => {
  const word = operand.replace(/[^A-Z]/g, '');
  if (word === 'NAME' || word === 'SHELL') return { kind: 'words', words: names };
  if (word === 'FOLDER') return { kind: 'folders' };
  return { kind: 'files', endings: ENDINGS[word] ?? [] };
};

const valueCandidates = ({ value, choices }: Flag<unknown>): Candidates | null => {
  if (value === null) return null;
  if (choices.length > 0) return { kind: 'words', words: choices };
  if (value === 'DIR' || value === 'FOLDER') return { kind: 'folders' };
  return ['FILE', 'FILES', 'OLD'].includes(value) ? { kind: 'files', endings: [] } : { kind: 'none' };
};

/**
 * What completion offers, from the records that help is made from.
 * @param names what a command takes by name, by command: `schema` the schemas, `completion` the shells
 */
export const completionTable = (
  commands: readonly Command[],
  names: Readonly<Record<string, readonly string[]>>,
): readonly CommandWords[] =>
  commands.map(({ name, summary, flags, operands }) => ({
    name,
    summary,
    options: [
      ...Object.entries(flags).map(([key, flag]) => ({
        name: longName(key),
        help: flag.help,
        value: valueCandidates(flag),
      })),
      { name: '--help', help: 'show help for the command', value: null },
    ],
    operands: operands.map((operand) => operandCandidates(operand, names[name] ?? [])),
  }));
