import type { CheckResult } from '../contract/check.js';
import { cleanText } from './clean-text.js';

const escaped = (text: string): string =>
  cleanText(text)
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]|[\ufffe\uffff]/g, '?');

interface Case {
  readonly name: string;
  readonly outcome: 'passed' | 'failure' | 'error' | 'skipped';
  readonly message: string;
}

const caseText = (file: string, { name, outcome, message }: Case): string => {
  const head = `    <testcase classname="${escaped(file)}" name="${escaped(name)}"`;
  return outcome === 'passed'
    ? `${head}/>\n`
    : `${head}>\n      <${outcome} message="${escaped(message)}"/>\n    </testcase>\n`;
};

const suiteText = (file: string, cases: readonly Case[]): string => {
  const count = (outcome: Case['outcome']) => cases.filter((row) => row.outcome === outcome).length;
  return [
    `  <testsuite name="${escaped(file)}" tests="${cases.length}" failures="${count('failure')}" errors="${count('error')}" skipped="${count('skipped')}">\n`,
    ...cases.map((row) => caseText(file, row)),
    '  </testsuite>\n',
  ].join('');
};

/**
 * The result of a check in the XML that test runners in CI read: a suite for each log, a case for each rule. A
 * broken rule of severity warning is `skipped` with its message, so that it is seen and does not fail the run.
 * @param unread logs that could not be read, with the reason: an `error` each
 * @param idle rules that were held against nothing, with the reason: `skipped` each, in a suite of their own
 */
export const junitText = (
  { results }: CheckResult,
  unread: readonly { readonly file: string | null; readonly message: string }[],
  idle: readonly { readonly rule: string; readonly why: string }[],
): string => {
  const suites = new Map<string, Case[]>();
  const add = (file: string, row: Case): void => {
    const known = suites.get(file);
    if (known === undefined) suites.set(file, [row]);
    else known.push(row);
  };
  for (const { file, rule, passed, severity, message } of results)
    add(file, {
      name: rule,
      outcome: passed ? 'passed' : severity === 'warning' ? 'skipped' : 'failure',
      message,
    });
  for (const { file, message } of unread)
    add(file ?? '-', { name: 'the log can be read', outcome: 'error', message });
  for (const { rule, why } of idle)
    add('rules', { name: rule, outcome: 'skipped', message: `held against nothing: ${why}` });
  return [
    '<?xml version="1.0" encoding="UTF-8"?>\n<testsuites>\n',
    ...[...suites].map(([file, cases]) => suiteText(file, cases)),
    '</testsuites>\n',
  ].join('');
};
