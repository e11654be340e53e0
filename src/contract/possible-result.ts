import type * as z from 'zod';
import { grouped } from '../units/grouped.js';
import type { WarningRow } from './envelope.js';
import type { FigurePath, ImpossibleFigure } from './figure-limit.js';

type Parent = Record<string | number, unknown>;

/** What a path leads to but for its last step. */
const parentOf = (value: unknown, path: FigurePath): Parent =>
  path.slice(0, -1).reduce<Parent>((inner, step) => inner[step] as Parent, value as Parent);

/** The way to the innermost element of a list that a path leads through; null where it leads through none. */
const elementOf = (path: FigurePath): FigurePath | null => {
  const last = path.findLastIndex((step) => typeof step === 'number');
  return last < 0 ? null : path.slice(0, last + 1);
};

/** Take elements out of the lists of a value, the last first, so that the places of the others stay. */
const removeElements = (value: unknown, elements: readonly FigurePath[]): void => {
  const distinct = [...new Map(elements.map((path) => [path.join('/'), path])).values()];
  for (const path of distinct.sort((a, b) => Number(b.at(-1)) - Number(a.at(-1))))
    (parentOf(value, path) as unknown as unknown[]).splice(Number(path.at(-1)), 1);
};

const nameOf = (path: FigurePath): string =>
  path.map((part) => (typeof part === 'number' ? `${part + 1}` : part)).join(' ');

/** One sentence on all impossible figures of one key. */
const warningOf = (file: string | null, key: string, figures: readonly ImpossibleFigure[]): WarningRow => {
  const { path, value, why } = figures[0]!;
  const more = figures.length === 1 ? '' : ` (and ${figures.length - 1} more)`;
  return {
    code: 'figure-impossible',
    file,
    where: null,
    message: `the log gives ${key} = ${Number(value.toPrecision(6))} in ${nameOf(path.slice(0, -1))}${more}: ${why}, so it is left out; check the log there`,
  };
};

const warningsOf = (file: string | null, figures: readonly ImpossibleFigure[]): WarningRow[] => {
  const byKey = grouped(figures, ({ path }) => String(path.findLast((part) => typeof part === 'string')));
  return [...byKey].map(([key, of]) => warningOf(file, key, of));
};

/**
 * A result without the figures that cannot be: they are null, and a warning says so. A row that needs one of them is
 * left out.
 * @param file the log that the result is of; null where it is of several
 * @param schema of the result
 * @returns null where nothing is left that the schema allows
 */
export const possibleResult = <Result extends { readonly warnings: readonly WarningRow[] }>(
  file: string | null,
  result: Result,
  figures: readonly ImpossibleFigure[],
  schema: z.ZodType,
): Result | null => {
  const made = structuredClone(result);
  for (const { path } of figures) parentOf(made, path)[path.at(-1)!] = null;
  const said = { ...made, warnings: [...result.warnings, ...warningsOf(file, figures)] };
  for (;;) {
    const { error } = schema.safeParse(said);
    if (error === undefined) return said;
    const elements = error.issues.map(({ path }) => elementOf(path as FigurePath));
    if (elements.some((path) => path === null || path[0] === 'warnings')) return null;
    removeElements(said, elements as FigurePath[]);
  }
};
