import Table from 'cli-table3';
import { cleanText } from './clean-text.js';
import type { Reading, Section } from './section.js';

const ASCII: Readonly<Record<string, string>> = {
  '²': '2',
  '°': ' deg',
  '±': '+-',
  '–': '-',
  '—': '-',
  '…': '...',
  '·': '.',
  '×': 'x',
  '’': "'",
  µ: 'u',
};

const NO_BORDERS = {
  top: '',
  'top-mid': '',
  'top-left': '',
  'top-right': '',
  bottom: '',
  'bottom-mid': '',
  'bottom-left': '',
  'bottom-right': '',
  left: '',
  'left-mid': '',
  mid: '',
  'mid-mid': '',
  right: '',
  'right-mid': '',
  middle: '',
};

const GAP = 2;
const NARROWEST = 12;

/** Rough width of a text on a terminal: characters from Hangul Jamo on take two places. */
const widthOf = (text: string): number =>
  [...text].reduce((sum, character) => sum + (character.codePointAt(0)! >= 0x1100 ? 2 : 1), 0);

/** Break a text into lines between words, and a word that is wider than a line anywhere. */
const wrapped = (text: string, width: number): string => {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && widthOf(last) + 1 + widthOf(word) <= width)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(...chopped(word, width));
  }
  return lines.join('\n');
};

const chopped = (word: string, width: number): string[] => {
  const pieces = [''];
  for (const character of word) {
    const last = pieces.at(-1)!;
    if (last !== '' && widthOf(last) + widthOf(character) > width) pieces.push(character);
    else pieces[pieces.length - 1] = last + character;
  }
  return pieces;
};

/** How wide each column is, and whether its cells have to be broken for that. */
interface ColumnWidth {
  readonly wide: number;
  readonly broken: boolean;
}

/** Widths that make the table fit: the widest columns of words give way, all to one width; figures never. */
const fitted = (
  section: Section,
  cells: readonly (readonly string[])[],
  width: number,
): readonly ColumnWidth[] => {
  const natural = section.columns.map((_, i) =>
    cells.reduce((most, row) => Math.max(most, widthOf(row[i] ?? '')), 0),
  );
  const most = (cap: number): number[] =>
    natural.map((wide, i) => (section.columns[i]!.align === 'left' ? Math.min(wide, cap) : wide));
  const fits = (cap: number): boolean => most(cap).reduce((sum, wide) => sum + wide + GAP, -GAP) <= width;
  let cap = Math.max(NARROWEST, ...natural);
  while (cap > NARROWEST && !fits(cap)) cap--;
  return most(cap).map((wide, i) => ({ wide, broken: wide < natural[i]! }));
};

/** Rows laid out at a time: cli-table3 takes time with the square of their count. */
const LAID_OUT = 50;

const gridOf = (section: Section, reading: Reading, shown: (text: string) => string): string => {
  const headings = section.columns.map((column) => shown(column.heading));
  const cells = section.rows.map((row) => row.map(shown));
  const headed = headings.some((heading) => heading !== '');
  const widths = fitted(section, headed ? [headings, ...cells] : cells, reading.width);
  const rows = cells.map((row) =>
    row.map((text, i) => (widths[i]?.broken ? wrapped(text, widths[i].wide) : text)),
  );
  const lines: string[] = [];
  for (let from = 0; from < rows.length; from += LAID_OUT) {
    const table = new Table({
      ...(headed && from === 0 ? { head: headings } : {}),
      ...(rows.length > LAID_OUT ? { colWidths: widths.map(({ wide }) => wide + GAP) } : {}),
      colAligns: section.columns.map((column) => column.align),
      style: { head: [], border: [], 'padding-left': 0, 'padding-right': GAP, compact: true },
      chars: NO_BORDERS,
    });
    table.push(...rows.slice(from, from + LAID_OUT));
    lines.push(...table.toString().split('\n'));
  }
  return lines.map((line) => line.trimEnd()).join('\n');
};

/** Sections as aligned text without boxes, for a terminal. */
export const tableText = (sections: readonly Section[], reading: Reading): string => {
  const shown = (text: string): string => {
    const clean = cleanText(text);
    return reading.plain ? clean.replace(/[²°±–—…·×’µ]/g, (found) => ASCII[found]!) : clean;
  };
  return sections
    .map((section) =>
      [
        ...(section.title === null
          ? []
          : [reading.bold ? `\u001b[1m${shown(section.title)}\u001b[22m` : shown(section.title)]),
        ...(section.rows.length === 0 ? [] : [gridOf(section, reading, shown)]),
        ...(section.drawing ?? []),
        ...section.notes.map((note) => wrapped(shown(note), reading.width)),
      ].join('\n'),
    )
    .map((text) => `${text}\n`)
    .join('\n');
};
