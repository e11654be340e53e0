import { UserError } from '../units/user-error.js';

/** One option: help, the manual and completion are made from this record. */
export interface Flag<Value> {
  /** How its value is called in help; null where the flag takes none. */
  readonly value: string | null;
  readonly help: string;
  /** What the value may be, where it is one of a few words. */
  readonly choices: readonly string[];
  /** What help calls the default; null where there is none. */
  readonly usual: string | null;
  /** What a command gets where the flag is not given. */
  readonly absent: Value;
  /** Reads a given value. Throws UserError, with what is allowed. */
  readonly read: (text: string) => Value;
}

/** The flags of a command, by the name that the command reads them by: `imuStart` is `--imu-start`. */
export type Flags = Readonly<Record<string, Flag<unknown>>>;

/** What a command gets for its flags. */
export type OptionsOf<Set extends Flags> = {
  readonly [Name in keyof Set]: Set[Name] extends Flag<infer Value> ? Value : never;
};

/** The name of a flag on the command line. */
export const longName = (name: string): string =>
  `--${name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`;

/** A flag that is given or not. */
export const switchFlag = (help: string): Flag<boolean> => ({
  value: null,
  help,
  choices: [],
  usual: null,
  absent: false,
  read: () => true,
});

/** A flag with a value, null where it is not given. */
export const valueFlag = <Value>(
  value: string,
  help: string,
  read: (text: string) => Value,
): Flag<Value | null> => ({ value, help, choices: [], usual: null, absent: null, read });

/** A flag with a default, written as a user would write it. */
export const defaultFlag = <Value>(
  value: string,
  help: string,
  usual: string,
  read: (text: string) => Value,
): Flag<Value> => ({ value, help, choices: [], usual, absent: read(usual), read });

const readChoice =
  <Word extends string>(choices: readonly Word[]) =>
  (text: string): Word => {
    const found = choices.find((choice) => choice === text);
    if (found === undefined) throw new UserError(`"${text}" is not one of ${choices.join(', ')}`);
    return found;
  };

/** A flag whose value is one of a few words; null where it is not given. */
export const choiceFlag = <Word extends string>(
  value: string,
  help: string,
  choices: readonly Word[],
): Flag<Word | null> => ({ ...valueFlag(value, help, readChoice(choices)), choices });

/** A flag whose value is one of a few words, with a default. */
export const defaultChoiceFlag = <Word extends string>(
  value: string,
  help: string,
  choices: readonly Word[],
  usual: Word,
): Flag<Word> => ({ ...defaultFlag(value, help, usual, readChoice(choices)), choices });

/** Reads a whole number in a range, both ends included. */
export const readCount =
  (min: number, max: number) =>
  (text: string): number => {
    const value = Number(text);
    if (!/^\d+$/.test(text) || value < min || value > max)
      throw new UserError(`"${text}" is not a whole number from ${min} to ${max}`);
    return value;
  };

/** Reads a list of rising numbers, such as those of the example. */
export const readRising =
  (example: string) =>
  (text: string): readonly number[] => {
    const values = text.split(',').map((part) => (part.trim() === '' ? Number.NaN : Number(part)));
    if (values.some((value, i) => !(value > (values[i - 1] ?? 0)) || value === Number.POSITIVE_INFINITY))
      throw new UserError(`"${text}" is not a list of rising numbers above 0, such as ${example}`);
    return values;
  };

/** Reads bounds of rate bands, spm. */
export const readRisingList = readRising('18,22,26,30,34');

/**
 * Holds that of several ways to ask at most one was taken.
 * @param ways names of the flags, each a way; of `pair` both together are one
 * @throws UserError with the flags that were given
 */
export const readAlone = (
  options: Readonly<Record<string, unknown>>,
  ways: readonly string[],
  pair: readonly string[],
): void => {
  const isGiven = (name: string) => options[name] !== null && options[name] !== false;
  const given = ways.filter(isGiven);
  const all = [...given, ...pair.filter(isGiven)];
  if (given.length > 1 || (given.length === 1 && all.length > 1))
    throw new UserError(`${all.map(longName).join(' and ')} cannot go together: choose one`);
};
