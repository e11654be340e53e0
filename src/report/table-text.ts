import Table from 'cli-table3';
import stringWidth from 'string-width';
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

/** How a table gives way where it is too wide, characters, and how long tables are laid out. */
export const TABLE_SETTINGS = Object.freeze({
  /** Space between columns, and where room is short; 1 to 3. */
  gap: 2,
  closeGap: 1,
  /** Columns of words are not broken below this, and with the close gap not below the next; 8 to 20. */
  narrowest: 12,
  narrowestOfAll: 8,
  /** Rows laid out at a time: the library compares each row with all of those before it; 20 to 200. */
  rowsAtATime: 50,
});

/** No line of any kind is drawn around or between cells. */
const NO_BORDERS = Object.freeze({
  ...{ top: '', 'top-mid': '', 'top-left': '', 'top-right': '', left: '', 'left-mid': '' },
  ...{ bottom: '', 'bottom-mid': '', 'bottom-left': '', 'bottom-right': '', right: '', 'right-mid': '' },
  ...{ mid: '', 'mid-mid': '' },
});

type Align = 'left' | 'right';

interface Layout {
  readonly widths: readonly number[];
  readonly gap: number;
}

const widest = (texts: readonly string[]): number =>
  texts.reduce((most, text) => Math.max(most, stringWidth(text)), 0);

/**
 * A layout that makes the table fit. What gives way, in this order: columns of words, all to one width; headings
 * of figures, between their words; the space between columns; words once more. Figures never.
 */
const fitted = (rows: readonly (readonly string[])[], aligns: readonly Align[], width: number): Layout => {
  const { gap, closeGap, narrowest, narrowestOfAll } = TABLE_SETTINGS;
  const [head, ...bodies] = rows;
  const columns = aligns.map((align, i) => {
    const heading = head![i]!;
    const body = widest(bodies.map((row) => row[i]!));
    const natural = Math.max(body, stringWidth(heading));
    return { align, natural, least: Math.max(body, widest(heading.split(' '))) };
  });
  const widthsOf = (cap: number, headsBroken: boolean): number[] =>
    columns.map(({ align, natural, least }) =>
      align === 'left' ? Math.min(natural, cap) : headsBroken ? least : natural,
    );
  const fits = (widths: readonly number[], between: number): boolean =>
    widths.reduce((sum, wide) => sum + wide + between, -between) <= width;
  const widestCap = Math.max(narrowest, ...columns.map(({ natural }) => natural));
  let layout: Layout = { widths: widthsOf(widestCap, false), gap };
  const giveWay = (between: number, fromCap: number, toCap: number, headsBroken: boolean): void => {
    for (let cap = fromCap; cap >= toCap && !fits(layout.widths, layout.gap); cap--)
      layout = { widths: widthsOf(cap, headsBroken), gap: between };
  };
  giveWay(gap, widestCap, narrowest, false);
  giveWay(gap, narrowest, narrowest, true);
  giveWay(closeGap, narrowest, narrowestOfAll, true);
  return layout;
};

/** A text whose words all fit a width: a longer one is cut, so that nothing of it is lost. */
const cut = (text: string, width: number): string => {
  if (stringWidth(text) <= width) return text;
  const word = (whole: string): string => {
    if (stringWidth(whole) <= width) return whole;
    const parts = [''];
    for (const letter of whole)
      if (stringWidth(parts.at(-1)! + letter) > width) parts.push(letter);
      else parts[parts.length - 1] += letter;
    return parts.filter((part) => part !== '').join(' ');
  };
  return text.split(' ').map(word).join(' ');
};

/** Rows under one another, broken between words where a cell is too wide. */
const laid = (
  rows: readonly (readonly string[])[],
  aligns: readonly Align[],
  { widths, gap }: Layout,
): string => {
  const { rowsAtATime } = TABLE_SETTINGS;
  const parts: string[] = [];
  for (let from = 0; from < rows.length; from += rowsAtATime) {
    const table = new Table({
      chars: { ...NO_BORDERS, middle: ' '.repeat(gap) },
      style: { 'padding-left': 0, 'padding-right': 0, head: [], border: [] },
      colWidths: [...widths],
      colAligns: [...aligns],
      wordWrap: true,
    });
    for (const row of rows.slice(from, from + rowsAtATime))
      table.push(row.map((text, i) => cut(text, widths[i]!)));
    parts.push(table.toString());
  }
  return parts.join('\n').replace(/ +$/gm, '');
};

const gridOf = ({ columns, rows }: Section, width: number): string => {
  const aligns = columns.map(({ align }) => align);
  const headings = columns.map(({ heading }) => heading);
  const layout = fitted([headings, ...rows], aligns, width);
  const headed = headings.some((heading) => heading !== '');
  return laid(headed ? [headings, ...rows] : rows, aligns, layout);
};

/** A paragraph, broken between words. */
const paragraph = (text: string, width: number): string =>
  stringWidth(text) <= width ? text : laid([[text]], ['left'], { widths: [width], gap: 0 });

/** A section with its texts as this terminal can show them. */
const shownAs = (section: Section, plain: boolean): Section => {
  const shown = (text: string): string => {
    const clean = cleanText(text);
    return plain ? clean.replace(/[²°±–—…·×’µ]/g, (found) => ASCII[found]!) : clean;
  };
  return {
    ...section,
    title: section.title === null ? null : shown(section.title),
    columns: section.columns.map((column) => ({ ...column, heading: shown(column.heading) })),
    rows: section.rows.map((row) => section.columns.map((_, i) => shown(row[i] ?? ''))),
    notes: section.notes.map(shown),
  };
};

/** Sections as aligned text without boxes, for a terminal. */
export const tableText = (sections: readonly Section[], { plain, bold, width }: Reading): string =>
  sections
    .map((section) => {
      const shown = shownAs(section, plain);
      const { title, rows, drawing = [], notes } = shown;
      return [
        ...(title === null ? [] : [bold ? `\u001b[1m${title}\u001b[22m` : title]),
        ...(rows.length === 0 ? [] : [gridOf(shown, width)]),
        ...drawing,
        ...notes.map((note) => paragraph(note, width)),
      ].join('\n');
    })
    .map((text) => `${text}\n`)
    .join('\n');
