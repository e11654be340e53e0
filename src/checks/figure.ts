import { allowedKeys, kindAt, wordsAt } from '../contract/schema-place.js';
import { RESULTS } from '../contract/schemas.js';
import { closest } from '../units/closest.js';

/** Results by the command that made them, as far as there are any: of one log, or read from a file. */
export type Results = Readonly<Record<string, object>>;

type Path = readonly (string | number)[];

/** A figure: the command, and the steps from the top of its result. */
export interface Figure {
  readonly command: string;
  readonly steps: Path;
  /** How many of the steps go without saying. */
  readonly hidden: number;
}

/** What counts the entries of a list. */
const COUNT = 'count';
/** Stands for every entry of a list. */
const EVERY = '*';

/** Keys by whose value an entry of a list may be named: `channels.position`, `best.2000`, `weeks.2026-W12`. */
const NAMES = [
  'name',
  'can',
  'code',
  'asked_m',
  'asked_s',
  'along_m',
  'week',
  'month',
  'group',
  'crew',
  'from_spm',
] as const;

/**
 * Where the figures of a command begin, beside the top of its result: with one log its own row, else what the
 * result is named after.
 */
const homeOf = (command: string): Path => {
  if (command === 'inspect') return ['recordings', 0];
  if (command === 'outing') return ['outings', 0];
  return kindAt(RESULTS[command]!, [command]) === null ? [] : [command];
};

/** Keys of a result that a rule may name; what pictures alone are drawn from is in no result that it looks at. */
const figureKeys = (...of: Parameters<typeof allowedKeys>): readonly string[] =>
  allowedKeys(...of).filter((key) => !key.startsWith('drawn'));

const hint = (word: string, words: readonly string[]): string => {
  const near = closest(word, words);
  return near === null ? '' : `; did you mean "${near}"?`;
};

/** The next step down, as the schema knows it; or what is wrong with it. */
const nextStep = (
  command: string,
  path: Path,
  part: string,
): { readonly step: string | number } | { readonly wrong: string } => {
  const schema = RESULTS[command]!;
  const kind = kindAt(schema, path);
  if (kind === 'any key') return { step: part };
  if (kind === 'keys') {
    const keys = figureKeys(schema, path);
    if (keys.includes(part)) return { step: part };
    const near = hint(part, keys);
    return { wrong: `there is no "${part}" there${near || '.'} Allowed: ${keys.join(', ')}` };
  }
  if (kind !== 'list' || path.at(-1) === COUNT)
    return { wrong: `"${path.at(-1)}" is a single value: nothing comes after it` };
  if (part === EVERY || /^\d+$/.test(part)) return { step: 0 };
  if (part === COUNT) return { step: COUNT };
  const names = NAMES.filter((key) => kindAt(schema, [...path, 0, key]) === 'value');
  const usual = `a number from 0, ${EVERY} for every entry, ${COUNT}`;
  if (names.length === 0)
    return { wrong: `"${part}" names no entry of the list "${path.at(-1)}": write ${usual}` };
  const words = names.map((key) => wordsAt(schema, [...path, 0, key]));
  if (words.every((some) => some !== null) && !words.flat().includes(part))
    return {
      wrong: `there is no "${part}" there${hint(part, words.flat() as string[]) || '.'} Allowed: ${words.flat().join(', ')}, ${usual}`,
    };
  return { step: 0 };
};

/** Go down a result's schema; what is wrong with the path, or null. */
const wrongPath = (command: string, start: Path, parts: readonly string[]): string | null => {
  let path = start;
  for (const part of parts) {
    const next = nextStep(command, path, part);
    if ('wrong' in next) return next.wrong;
    path = [...path, next.step];
  }
  if (path.at(-1) === COUNT) return null;
  const kind = kindAt(RESULTS[command]!, path);
  if (kind === 'list')
    return `it is a list: add a number from 0, ${EVERY} for every entry or ${COUNT}, as in ${parts.join('.')}.${COUNT}`;
  return kind === 'keys'
    ? `it holds several figures: add one of ${figureKeys(RESULTS[command]!, path).join(', ')}`
    : null;
};

/**
 * Read a figure such as `outing.distance_m`.
 * @returns the figure, or what is wrong with it
 */
export const parseFigure = (text: string): Figure | { readonly wrong: string } => {
  const [command = '', ...parts] = text.split('.');
  const commands = Object.keys(RESULTS);
  if (!Object.hasOwn(RESULTS, command))
    return {
      wrong: `"${text}" must begin with one of ${commands.join(', ')}${hint(command, commands)}`,
    };
  if (parts.length === 0) return { wrong: `"${text}" names no figure of ${command}` };
  const home = homeOf(command);
  const isTop = figureKeys(RESULTS[command]!, []).includes(parts[0]!);
  const start = isTop ? [] : home;
  const wrong = wrongPath(command, start, parts);
  return wrong === null
    ? { command, steps: [...start, ...parts], hidden: start.length }
    : { wrong: `"${text}": ${wrong}` };
};

/** One value of a figure, and the path to it: `*` stands replaced by the number of the entry. */
export interface FigureValue {
  readonly figure: string;
  readonly value: string | number | boolean | null;
}

interface Reached {
  readonly path: readonly (string | number)[];
  readonly value: unknown;
}

const inList = (list: readonly unknown[], step: string | number): [string | number, unknown][] => {
  if (step === EVERY) return list.map((item, i) => [i, item]);
  if (step === COUNT) return [[step, list.length]];
  if (/^\d+$/.test(String(step)) && Number(step) < list.length) return [[step, list[Number(step)]]];
  const named = list.filter((item) =>
    NAMES.some((key) => String((item as Record<string, unknown>)[key]) === String(step)),
  );
  return named.length === 0 ? [[step, null]] : named.map((item) => [step, item]);
};

/**
 * The values of a figure: one, or one for each entry where it has `*` or a name that several entries bear. What is
 * not there is null.
 */
export const figureValues = (figure: Figure, results: Results): FigureValue[] => {
  let reached: Reached[] = [{ path: [], value: results[figure.command] ?? null }];
  for (const step of figure.steps)
    reached = reached.flatMap(({ path, value }): Reached[] => {
      if (Array.isArray(value))
        return inList(value, step).map(([name, item]) => ({ path: [...path, name], value: item }));
      const isGroup = value !== null && typeof value === 'object';
      return [{ path: [...path, step], value: isGroup ? (value as Record<string, unknown>)[step] : null }];
    });
  return reached.map(({ path, value }) => ({
    figure: [figure.command, ...path.slice(figure.hidden)].join('.'),
    value:
      typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean' ? value : null,
  }));
};
