import { element, escaped } from '../drawing/element.js';
import type { Column, Section } from '../section.js';

/** Words shorter than this stay on one line, letters; 16 to 30. */
const SHORT = 24;

const cellClass = ({ align }: Column, text: string): string | null =>
  align === 'right' ? 'n' : text.length <= SHORT ? 'k' : null;

const headOf = (columns: readonly Column[]): string =>
  element(
    'thead',
    {},
    element(
      'tr',
      {},
      ...columns.map((column) =>
        column.heading === ''
          ? element('td', {})
          : element(
              'th',
              { scope: 'col', class: column.align === 'right' ? 'n' : null },
              escaped(column.heading),
            ),
      ),
    ),
  );

/** A row; where the table has no headings its first cell names the others. */
const rowOf = (row: readonly string[], columns: readonly Column[], named: boolean): string =>
  element(
    'tr',
    {},
    ...columns.map((column, i) =>
      named && i === 0
        ? element('th', { scope: 'row' }, escaped(row[i] ?? ''))
        : element('td', { class: cellClass(column, row[i] ?? '') }, escaped(row[i] ?? '')),
    ),
  );

/** The rows of a section as a table that scrolls by itself where the page is narrower. */
export const tableOf = ({ title, columns, rows }: Section): string => {
  const named = columns.every(({ heading }) => heading === '');
  return element(
    'div',
    { class: 'scroll', tabindex: 0, role: 'region', 'aria-label': title ?? 'Table' },
    element(
      'table',
      {},
      named ? '' : headOf(columns),
      element('tbody', {}, ...rows.map((row) => rowOf(row, columns, named))),
    ),
  );
};

/** A section as the page shows it: its title, its table, and what has to be said below. */
export const sectionOf = (section: Section): string =>
  element(
    'section',
    {},
    section.title === null ? '' : element('h2', {}, escaped(section.title)),
    section.rows.length === 0 ? '' : tableOf(section),
    ...section.notes.map((note) => element('p', { class: 'note' }, escaped(note))),
  );
