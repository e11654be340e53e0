import type { ClubDefaults } from './club-defaults.js';
import type { Flags, OptionsOf } from './flag.js';
import type { Session } from './session.js';

/** One command: help and the manual are made from this record. */
export interface Command<Set extends Flags = Flags> {
  readonly name: string;
  /** What it answers, in a few words, lower case, no full stop. */
  readonly summary: string;
  /** What stands after the options: `FILE`, `FILE…`, `[NAME]`. */
  readonly operands: readonly string[];
  readonly flags: Set;
  /** What help says below the options: how to read the answer, in whole sentences. */
  readonly about: string;
  /** Command lines that work, each with what it does. */
  readonly examples: readonly { readonly line: string; readonly does: string }[];
  /** Options whose file may be written anew by `--out`: what was in it is completed. */
  readonly completes?: readonly string[];
  readonly run: (
    session: Session,
    options: OptionsOf<Set> & { readonly club: ClubDefaults | null },
    operands: readonly string[],
  ) => Promise<void> | void;
}

/** A command, with the types of its options inferred from its flags. */
export const command = <Set extends Flags>(record: Command<Set>): Command => record as unknown as Command;
