import type { CheckRow } from '../contract/check.js';
import type { Rule } from '../contract/rules.js';
import { type CheckedCommand, type Figure, figureValues, type LogResults, parseFigure } from './figure.js';
import { fitsPattern } from './file-pattern.js';

type Value = string | number | boolean | null;

const figureOf = (text: string): Figure => {
  const figure = parseFigure(text);
  if ('wrong' in figure) throw new Error(`a rule that was not checked: ${figure.wrong}`);
  return figure;
};

const shown = (value: Value): string => (value === null ? 'not known' : String(value));

const withinLimit = ({ within }: Rule, results: LogResults): readonly [number, number] | null => {
  if (within === undefined) return null;
  const of = typeof within.of === 'number' ? within.of : figureValues(figureOf(within.of), results)[0];
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

const holds = (rule: Rule, value: Value, results: LogResults): boolean => {
  if (rule.equals !== undefined && value !== rule.equals) return false;
  if (rule.one_of !== undefined && !rule.one_of.includes(value)) return false;
  const within = withinLimit(rule, results);
  const low = Math.max(rule.min ?? Number.NEGATIVE_INFINITY, within?.[0] ?? Number.NEGATIVE_INFINITY);
  const high = Math.min(rule.max ?? Number.POSITIVE_INFINITY, within?.[1] ?? Number.POSITIVE_INFINITY);
  if (rule.min === undefined && rule.max === undefined && within === null) return true;
  return typeof value === 'number' && value >= low && value <= high;
};

/**
 * What rules say of one log. A figure that is not known breaks every rule but `equals: null`.
 * @param rules whose figures were checked by {@link parseFigure}
 */
export const checkLog = (rules: readonly Rule[], file: string, results: LogResults): CheckRow[] =>
  rules
    .filter((rule) => rule.files === undefined || fitsPattern(file, rule.files))
    .map((rule): CheckRow => {
      const values = figureValues(figureOf(rule.figure), results);
      const broken = values.findIndex((value) => !holds(rule, value, results));
      const value = values[Math.max(0, broken)] ?? null;
      const limit = limitText(rule);
      return {
        file,
        rule: rule.name,
        passed: broken < 0,
        value,
        limit,
        severity: rule.severity ?? 'error',
        message:
          broken < 0
            ? `${rule.figure} is ${shown(value)}.`
            : `${rule.figure} is ${shown(value)} and must be ${limit}${rule.reason === undefined ? '' : `: ${rule.reason}`}.`,
      };
    });

/** The commands whose results the rules ask for. */
export const commandsOf = (rules: readonly Rule[]): CheckedCommand[] => [
  ...new Set(
    rules.flatMap(({ figure, within }) => [
      figureOf(figure).command,
      ...(typeof within?.of === 'string' ? [figureOf(within.of).command] : []),
    ]),
  ),
];
