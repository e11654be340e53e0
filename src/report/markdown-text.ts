import { cleanText } from './clean-text.js';
import type { Section } from './section.js';

/** Characters that Markdown or HTML would act on. */
const escaped = (text: string): string =>
  cleanText(text).replace(/[\\|`*_<>[\]]/g, (found) => (found === '<' ? '&lt;' : `\\${found}`));

const line = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;

/** Sections as Markdown with pipe tables. */
export const markdownText = (sections: readonly Section[]): string =>
  sections
    .map(({ title, columns, rows, notes, drawing = [] }) =>
      [
        ...(title === null ? [] : [`## ${escaped(title)}`]),
        ...(rows.length === 0
          ? []
          : [
              [
                line(columns.map(({ heading }) => escaped(heading))),
                line(columns.map(({ align }) => (align === 'right' ? '---:' : ':---'))),
                ...rows.map((row) => line(row.map(escaped))),
              ].join('\n'),
            ]),
        ...(drawing.length === 0 ? [] : [['```text', ...drawing, '```'].join('\n')]),
        ...notes.map(escaped),
      ].join('\n\n'),
    )
    .map((text) => `${text}\n`)
    .join('\n');
