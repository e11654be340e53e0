import { dirname, resolve } from 'node:path';
import { type DefaultsFile, defaultsFile } from '../contract/defaults.js';
import { parseInputFile } from '../contract/input-file.js';
import { inputText } from '../host/input-text.js';
import { UserError } from '../units/user-error.js';
import type { Flags } from './flag.js';
import { SEASON } from './season-flags.js';
import { BANDS, LOGS, REPORTING } from './shared-flags.js';

/** What a club's file of defaults gives to one command. */
export interface ClubDefaults {
  readonly file: string;
  /** Values of flags that were not given, by their names. */
  readonly options: Readonly<Record<string, unknown>>;
  /** What is known of the craft and the logger where neither the sheet nor the boat file says. */
  readonly usual: Pick<DefaultsFile, 'craft' | 'placement'>;
  /** Bounds of rate bands, for a command that takes them by a flag of its own. */
  readonly bands: readonly number[] | null;
  /** What was taken from the file, and what an option overrode, for `thole inspect`. */
  readonly taken: readonly { readonly name: string; readonly value: string; readonly used: boolean }[];
}

/** Keys that are the value of one flag, and that flag: of the same name there are others. */
const FLAGS = {
  tz: REPORTING.tz,
  speed: REPORTING.speed,
  decimal: REPORTING.decimal,
  times: REPORTING.times,
  boat: LOGS.boat,
  bands: BANDS.bands,
  season_from: SEASON.seasonFrom,
} as const;

type FlagKey = keyof typeof FLAGS;

const textOf = (key: FlagKey, value: NonNullable<DefaultsFile[FlagKey]>, file: string): string =>
  key === 'boat'
    ? resolve(dirname(file), String(value))
    : Array.isArray(value)
      ? value.join(',')
      : String(value);

/**
 * Read a file of defaults for a command.
 * @param flags the command's flags
 * @param given names of the flags that stand on the command line
 * @throws UserError with file, line and key where it is not valid
 */
export const clubDefaults = async (
  file: string,
  flags: Flags,
  given: ReadonlySet<string>,
): Promise<ClubDefaults> => {
  const { value: defaults, errorAt } = parseInputFile(
    defaultsFile,
    await inputText(file, 'file of defaults'),
    file,
  );
  const options: Record<string, unknown> = {};
  const taken: { name: string; value: string; used: boolean }[] = [];
  for (const key of Object.keys(FLAGS) as FlagKey[]) {
    const value = defaults[key];
    if (value === undefined) continue;
    const text = textOf(key, value, file);
    let read: unknown;
    try {
      read = FLAGS[key].read(text);
    } catch (error) {
      if (error instanceof UserError) throw errorAt([key], `key "${key}": ${error.message}`);
      throw error;
    }
    const name = Object.entries(flags).find(([, flag]) => flag === FLAGS[key])?.[0];
    if (name !== undefined && !given.has(name)) options[name] = read;
    taken.push({ name: key, value: text, used: name === undefined || !given.has(name) });
  }
  const { craft, placement } = defaults;
  for (const [name, value] of Object.entries({ craft, placement }))
    if (value !== undefined) taken.push({ name, value, used: !given.has(name) });
  return { file, options, usual: { craft, placement }, bands: defaults.bands ?? null, taken };
};
