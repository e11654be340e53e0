import { cleanText } from './clean-text.js';
import type { Column, Reading, Section } from './section.js';

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

const GAP = 2;
const CLOSE_GAP = 1;
const NARROWEST = 12;
const NARROWEST_OF_ALL = 8;

/** Characters that take two places on a terminal, by first and last: wide and full-width (Unicode TR 11), pictures. */
const WIDE: readonly (readonly [number, number])[] = [
  [0x1100, 0x115f],
  [0x2e80, 0xa4cf],
  [0xac00, 0xd7a3],
  [0xf900, 0xfaff],
  [0xfe30, 0xfe6f],
  [0xff00, 0xff60],
  [0xffe0, 0xffe6],
  [0x1f300, 0x1faff],
  [0x20000, 0x3fffd],
];
/** Marks set upon the letter before take none. */
const isMark = (code: number): boolean => code >= 0x300 && code <= 0x36f;

/** Width of a text on a terminal, in places. */
const widthOf = (text: string): number => {
  let width = 0;
  for (let i = 0; i < text.length; i++) {
    const code = text.codePointAt(i)!;
    if (code > 0xffff) i++;
    if (code < 0x300) width++;
    else if (WIDE.some(([first, last]) => code >= first && code <= last)) width += 2;
    else if (!isMark(code)) width++;
  }
  return width;
};

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

/** The lines of one row of cells, each given by its lines. */
const linesOf = (
  cells: readonly (readonly string[])[],
  widths: readonly number[],
  aligns: readonly Column['align'][],
  gap: number,
): string[] =>
  Array.from({ length: Math.max(...cells.map((lines) => lines.length)) }, (_, line) =>
    widths
      .map((wide, i) => {
        const text = cells[i]?.[line] ?? '';
        const space = ' '.repeat(wide - widthOf(text));
        return aligns[i] === 'right' ? space + text : text + space;
      })
      .join(' '.repeat(gap))
      .trimEnd(),
  );

const gridOf = (section: Section, reading: Reading, shown: (text: string) => string): string => {
  const headings = section.columns.map((column) => shown(column.heading));
  const cells = section.rows.map((row) => row.map(shown));
  const headed = headings.some((heading) => heading !== '');
  const { columns, gap } = fitted(section, headings, cells, reading.width);
  const rows = [...(headed ? [headings] : []), ...cells].map((row) =>
    columns.map(({ wide, broken }, i) => {
      const text = row[i] ?? '';
      return broken ? wrapped(text, wide).split('\n') : [text];
    }),
  );
  // Words that were broken may leave a column narrower than it was allowed to be.
  const widths = columns.map((_, i) => widest(rows.flatMap((row) => row[i]!)));
  const aligns = section.columns.map(({ align }) => align);
  return rows.flatMap((row) => linesOf(row, widths, aligns, gap)).join('\n');
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
