import { type CheckResult, checkRow } from '../contract/check.js';
import { words } from './section.js';
import { flat, type View } from './view.js';

/** `thole check`: broken rules first to see, then what was kept, in numbers. */
export const checkView: View<CheckResult> = {
  keys: Object.keys(checkRow.shape),
  rows: ({ results }) => results,
  cells: ({ results }) => results.map((row) => flat(row)),
  sections: ({ results, summary }) => {
    const broken = results.filter(({ passed }) => !passed);
    return [
      {
        title: broken.length === 0 ? null : 'Broken rules',
        columns: [words('log'), words('rule'), words(''), words('what')],
        rows: broken.map(({ file, rule, severity, message }) => [file, rule, severity, message]),
        notes: [
          `${summary.passed_count} kept, ${summary.failed_count} broken, ${summary.warned_count} broken with a warning only.`,
        ],
      },
    ];
  },
};
