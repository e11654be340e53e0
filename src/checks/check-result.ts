import type { CheckResult, CheckRow } from '../contract/check.js';
import type { WarningRow } from '../contract/envelope.js';
import type { Rule } from '../contract/rules.js';
import { commandsOf } from './rule-check.js';

/** What the rules said of one log, or of one stored result. */
interface Answer {
  readonly files: readonly string[];
  readonly warnings: readonly WarningRow[];
  readonly results: readonly CheckRow[];
  /** The commands whose figures could be had of it. */
  readonly commands: readonly string[];
}

/** A log by itself and as part of a season has the same to say. */
const distinct = (warnings: readonly WarningRow[]): WarningRow[] => [
  ...new Map(warnings.map((warning) => [JSON.stringify(warning), warning])).values(),
];

/** Why a rule was held against nothing; null where it was held against something. */
const whyIdle = (answers: readonly Answer[], rule: Rule): string | null => {
  const commands = commandsOf(rule);
  const missing = commands.find((one) => !answers.some((answer) => answer.commands.includes(one)));
  if (missing !== undefined)
    return `none of the files has figures of ${missing}; write its result with --format json --out FILE, and check that FILE`;
  // a rule that was held against a file has a row of it
  if (answers.some(({ results }) => results.some((row) => row.rule === rule.name))) return null;
  const isThere = answers.some((answer) => commands.every((command) => answer.commands.includes(command)));
  return isThere && rule.files !== undefined
    ? `its files, "${rule.files}", are none of these`
    : 'no file has both of its figures';
};

/** A rule that was held against nothing, and why. */
export interface IdleRule {
  readonly rule: string;
  readonly why: string;
}

/** The rules that were held against nothing: each looks like one that is kept. */
export const idleRules = (answers: readonly Answer[], rules: readonly Rule[]): IdleRule[] =>
  rules.flatMap((rule) => {
    const why = whyIdle(answers, rule);
    return why === null ? [] : [{ rule: rule.name, why }];
  });

const idleWarning = ({ rule, why }: IdleRule): WarningRow => ({
  code: 'rule-not-used',
  file: null,
  where: null,
  message: `The rule "${rule}" was held against nothing: ${why}.`,
});

const NOTHING_CHECKED: WarningRow = {
  code: 'nothing-checked',
  file: null,
  where: null,
  message:
    'No rule is about any of these files, so nothing was checked: give rules of your own with --rules.',
};

/**
 * What the rules said of several logs and stored results, as one result.
 * @param expected rules of which it is said where they were held against nothing
 */
export const checkResultOf = (answers: readonly Answer[], expected: readonly Rule[]): CheckResult => {
  const results = answers.flatMap((answer) => answer.results);
  const idle = idleRules(answers, expected).map(idleWarning);
  const broken = results.filter(({ passed }) => !passed);
  return {
    schema: 'thole/check/1',
    files: answers.flatMap(({ files }) => files),
    warnings: [
      ...distinct(answers.flatMap(({ warnings }) => warnings)),
      ...(answers.length === 0 ? [] : results.length === 0 && idle.length === 0 ? [NOTHING_CHECKED] : idle),
    ],
    results,
    summary: {
      passed_count: results.length - broken.length,
      failed_count: broken.filter(({ severity }) => severity === 'error').length,
      warned_count: broken.filter(({ severity }) => severity === 'warning').length,
    },
  };
};
