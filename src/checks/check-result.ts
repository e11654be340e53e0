import type { CheckResult, CheckRow } from '../contract/check.js';
import type { WarningRow } from '../contract/envelope.js';

/** What the rules said of several logs, as one result. */
export const checkResultOf = (
  answers: readonly {
    readonly files: readonly string[];
    readonly warnings: readonly WarningRow[];
    readonly results: readonly CheckRow[];
  }[],
): CheckResult => {
  const results = answers.flatMap((answer) => answer.results);
  const broken = results.filter(({ passed }) => !passed);
  return {
    schema: 'thole/check/1',
    files: answers.flatMap(({ files }) => files),
    warnings: answers.flatMap(({ warnings }) => warnings),
    results,
    summary: {
      passed_count: results.length - broken.length,
      failed_count: broken.filter(({ severity }) => severity === 'error').length,
      warned_count: broken.filter(({ severity }) => severity === 'warning').length,
    },
  };
};
