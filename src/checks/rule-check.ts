import type { CheckRow } from '../contract/check.js';
import type { Rule } from '../contract/rules.js';
import { type Figure, figureValues, parseFigure, type Results } from './figure.js';
import { fitsPattern } from './file-pattern.js';

type Value = string | number | boolean | null;

const figureOf = (text: string): Figure => {
  const figure = parseFigure(text);
  if ('wrong' in figure) throw new Error(`a rule that was not checked: ${figure.wrong}`);
  return figure;
};

/** Commands whose figures a rule is about. */
export const commandsOf = ({ figure, within }: Rule): readonly string[] => [
  figureOf(figure).command,
  ...(typeof within?.of === 'string' ? [figureOf(within.of).command] : []),
];

const shown = (value: Value): string => (value === null ? 'not known' : String(value));

const withinLimit = ({ within }: Rule, results: Results): readonly [number, number] | null => {
  if (within === undefined) return null;
  const values = typeof within.of === 'number' ? [] : figureValues(figureOf(within.of), results);
  const of = typeof within.of === 'number' ? within.of : values.length === 1 ? values[0]!.value : null;
  if (typeof of !== 'number') return [Number.NaN, Number.NaN];
  const reach = Math.abs(of) * (within.pct / 100);
  return [of - reach, of + reach];
};

/** What a rule demands, in words. */
export const limitText = (rule: Rule): string =>
  [
    ...(rule.min === undefined ? [] : [`at least ${rule.min}`]),
    ...(rule.max === undefined ? [] : [`at most ${rule.max}`]),
    ...(rule.equals === undefined ? [] : [rule.equals === null ? 'none' : String(rule.equals)]),
    ...(rule.one_of === undefined ? [] : [`one of ${rule.one_of.map(shown).join(', ')}`]),
    ...(rule.within === undefined ? [] : [`within ${rule.within.pct} % of ${rule.within.of}`]),
  ].join(' and ');

const holds = (rule: Rule, value: Value, results: Results): boolean => {
  if (rule.equals !== undefined && value !== rule.equals) return false;
  if (rule.one_of !== undefined && !rule.one_of.includes(value)) return false;
  const within = withinLimit(rule, results);
  const low = Math.max(rule.min ?? Number.NEGATIVE_INFINITY, within?.[0] ?? Number.NEGATIVE_INFINITY);
  const high = Math.min(rule.max ?? Number.POSITIVE_INFINITY, within?.[1] ?? Number.POSITIVE_INFINITY);
  if (rule.min === undefined && rule.max === undefined && within === null) return true;
  return typeof value === 'number' && value >= low && value <= high;
};

const rowOf = (rule: Rule, file: string, results: Results): CheckRow => {
  const values = figureValues(figureOf(rule.figure), results);
  const broken = values.find(({ value }) => !holds(rule, value, results));
  const { figure, value } = broken ?? values[0] ?? { figure: rule.figure, value: null };
  const limit = limitText(rule);
  const found = values.length === 0 ? 'there is none' : `${figure} is ${shown(value)}`;
  return {
    file,
    rule: rule.name,
    passed: broken === undefined,
    value,
    limit,
    severity: rule.severity ?? 'error',
    message:
      broken === undefined
        ? `${values.length === 0 ? `${rule.figure}: ` : ''}${found}.`
        : `${found} and must be ${limit}${rule.reason === undefined ? '' : `: ${rule.reason}`}.`,
  };
};

/** Whether what a rule is about is among some results. */
export const isAbout = (rule: Rule, results: Results): boolean =>
  commandsOf(rule).every((command) => Object.hasOwn(results, command));

/**
 * What rules say of one log, or of one stored result: those that are about its results and whose file pattern fits.
 * A figure that is not known breaks every rule but `equals: null`.
 * @param rules whose figures were checked by {@link parseFigure}
 * @param file names the row
 * @param names what a file pattern may fit: the log, and the file that its result is stored in
 */
export const checkFile = (
  rules: readonly Rule[],
  file: string,
  results: Results,
  names: readonly string[] = [file],
): CheckRow[] =>
  rules
    .filter(({ files }) => files === undefined || names.some((name) => fitsPattern(name, files)))
    .filter((rule) => isAbout(rule, results))
    .map((rule) => rowOf(rule, file, results));
