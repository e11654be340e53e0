import { type CheckResult, type CheckRow, checkRow } from '../contract/check.js';
import { type Section, words } from './section.js';
import { flat, type View } from './view.js';

/** The broken rules of one log. */
const brokenSection = (file: string, broken: readonly CheckRow[]): Section => ({
  title: file,
  columns: [words('broken rule'), words(''), words('what')],
  rows: broken.map(({ rule, severity, message }) => [rule, severity, message]),
  notes: [],
});

/** `thole check`: the broken rules of each log, then what was kept, in numbers. */
export const checkView: View<CheckResult> = {
  keys: Object.keys(checkRow.shape),
  rows: ({ results }) => results,
  cells: ({ results }) => results.map((row) => flat(row)),
  sections: ({ results, summary }) => {
    const broken = results.filter(({ passed }) => !passed);
    const files = [...new Set(broken.map(({ file }) => file))];
    return [
      ...files.map((file) =>
        brokenSection(
          file,
          broken.filter((row) => row.file === file),
        ),
      ),
      {
        title: null,
        columns: [],
        rows: [],
        notes: [
          `${summary.passed_count} kept, ${summary.failed_count} broken, ${summary.warned_count} broken with a warning only.`,
        ],
      },
    ];
  },
};
