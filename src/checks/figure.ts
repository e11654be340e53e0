import type * as z from 'zod';
import { inspectResult } from '../contract/inspect.js';
import { outingResult } from '../contract/outing.js';
import { piecesResult } from '../contract/pieces.js';
import { allowedKeys } from '../contract/schema-fault.js';
import { strokesResult } from '../contract/strokes.js';
import { closest } from '../units/closest.js';

/** The commands whose results of one log can be checked. */
export const CHECKED_COMMANDS = ['inspect', 'outing', 'strokes', 'pieces'] as const;
export type CheckedCommand = (typeof CHECKED_COMMANDS)[number];

/** The results of one log, as far as the rules ask for them. */
export type LogResults = Readonly<Partial<Record<CheckedCommand, object>>>;

/** Where in a command's result one log's own figures stand. */
const HOMES: Readonly<
  Record<CheckedCommand, { readonly schema: z.ZodType; readonly home: readonly (string | number)[] }>
> = {
  inspect: { schema: inspectResult, home: ['recordings', 0] },
  outing: { schema: outingResult, home: ['outings', 0] },
  strokes: { schema: strokesResult, home: ['strokes'] },
  pieces: { schema: piecesResult, home: ['pieces'] },
};

/** What counts the entries of a list. */
const COUNT = 'count';
/** Stands for every entry of a list. */
const EVERY = '*';

/** A figure: the command, and the steps from the top of its result. */
export interface Figure {
  readonly command: CheckedCommand;
  readonly steps: readonly (string | number)[];
}

const isCommand = (name: string): name is CheckedCommand =>
  (CHECKED_COMMANDS as readonly string[]).includes(name);

/** Keys by whose value an entry of a list may be named: `channels.position`, `best.2000`, `warnings.cut-off`. */
const NAMES = ['name', 'can', 'code', 'asked_m', 'asked_s'] as const;

/**
 * Read a figure such as `outing.distance_m`.
 * @returns the figure, or what is wrong with it
 */
export const parseFigure = (text: string): Figure | { readonly wrong: string } => {
  const [name = '', ...parts] = text.split('.');
  if (!isCommand(name)) {
    const near = closest(name, CHECKED_COMMANDS);
    return {
      wrong: `"${text}" must begin with one of ${CHECKED_COMMANDS.join(', ')}${near === null ? '' : `; did you mean "${near}"?`}`,
    };
  }
  if (parts.length === 0) return { wrong: `"${text}" names no figure of ${name}` };
  const { schema, home } = HOMES[name];
  const own = parts[0] === 'warnings' ? [] : home;
  const path: (string | number)[] = [...own];
  for (const part of parts) {
    const allowed = allowedKeys(schema, path);
    if (allowed.length === 0) path.push(/^\d+$/.test(part) ? Number(part) : 0);
    else if (allowed.includes(part)) path.push(part);
    else {
      const near = closest(part, allowed);
      return {
        wrong: `"${text}": there is no "${part}" there${near === null ? '.' : `; did you mean "${near}"?`} Allowed: ${allowed.join(', ')}`,
      };
    }
  }
  return { command: name, steps: [...own, ...parts] };
};

const inList = (list: readonly unknown[], step: string | number): unknown[] => {
  if (step === EVERY) return [...list];
  if (step === COUNT) return [list.length];
  if (/^\d+$/.test(String(step)) && Number(step) < list.length) return [list[Number(step)]];
  const named = list.find((item) =>
    NAMES.some((key) => String((item as Record<string, unknown>)[key]) === String(step)),
  );
  return [named];
};

/**
 * The values of a figure in a result: one, or one for each entry where it has `*`. What is not there is null.
 */
export const figureValues = (figure: Figure, results: LogResults): (string | number | boolean | null)[] => {
  let values: unknown[] = [results[figure.command] ?? null];
  for (const step of figure.steps)
    values = values.flatMap((value) => {
      if (Array.isArray(value)) return inList(value, step);
      return [value !== null && typeof value === 'object' ? (value as Record<string, unknown>)[step] : null];
    });
  return values.map((value) =>
    typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean' ? value : null,
  );
};
