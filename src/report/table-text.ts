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
const CLOSE_GAP = 1;
const NARROWEST = 12;
const NARROWEST_OF_ALL = 8;

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

/** How a table is laid out: the width of each column, whether its cells have to be broken, and the space between. */
interface Layout {
  readonly columns: readonly { readonly wide: number; readonly broken: boolean }[];
  readonly gap: number;
}

const widest = (texts: readonly string[]): number =>
  texts.reduce((most, text) => Math.max(most, widthOf(text)), 0);

/**
 * A layout that makes the table fit. What gives way, in this order: columns of words, all to one width; headings
 * of figures, between their words; the space between columns; words once more. Figures never.
 */
const fitted = (
  section: Section,
  headings: readonly string[],
  cells: readonly (readonly string[])[],
  width: number,
): Layout => {
  const bodies = section.columns.map((_, i) => widest(cells.map((row) => row[i] ?? '')));
  const heads = headings.map(widthOf);
  const shortest = headings.map((heading) => widest(heading.split(' ')));
  const laid = (gap: number, cap: number, headsBroken: boolean): Layout => ({
    gap,
    columns: section.columns.map(({ align }, i) => {
      const natural = Math.max(bodies[i]!, heads[i]!);
      const least = align === 'left' ? Math.min(natural, cap) : Math.max(bodies[i]!, shortest[i]!);
      const wide = align === 'left' || headsBroken ? least : natural;
      return { wide, broken: wide < natural };
    }),
  });
  const fits = ({ columns, gap }: Layout): boolean =>
    columns.reduce((sum, { wide }) => sum + wide + gap, -gap) <= width;
  const widestCap = Math.max(NARROWEST, ...bodies, ...heads);
  let layout = laid(GAP, widestCap, false);
  const giveWay = (gap: number, fromCap: number, toCap: number, headsBroken: boolean): void => {
    for (let cap = fromCap; cap >= toCap && !fits(layout); cap--) layout = laid(gap, cap, headsBroken);
  };
  giveWay(GAP, widestCap, NARROWEST, false);
  giveWay(GAP, NARROWEST, NARROWEST, true);
  giveWay(CLOSE_GAP, NARROWEST, NARROWEST_OF_ALL, true);
  return layout;
};

/** Rows laid out at a time: cli-table3 takes time with the square of their count. */
const LAID_OUT = 50;

const gridOf = (section: Section, reading: Reading, shown: (text: string) => string): string => {
  const headings = section.columns.map((column) => shown(column.heading));
  const cells = section.rows.map((row) => row.map(shown));
  const headed = headings.some((heading) => heading !== '');
  const { columns, gap } = fitted(section, headings, cells, reading.width);
  const broken = (row: readonly string[]) =>
    row.map((text, i) => (columns[i]?.broken ? wrapped(text, columns[i].wide) : text));
  const rows = cells.map(broken);
  const lines: string[] = [];
  for (let from = 0; from < rows.length; from += LAID_OUT) {
    const table = new Table({
      ...(headed && from === 0 ? { head: broken(headings) } : {}),
      ...(rows.length > LAID_OUT ? { colWidths: columns.map(({ wide }) => wide + gap) } : {}),
      colAligns: section.columns.map((column) => column.align),
      style: { head: [], border: [], 'padding-left': 0, 'padding-right': gap, compact: true },
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
