/** How a spreadsheet wrote an input file in CSV. */
export interface CsvDialect {
  readonly delimiter: ',' | ';' | '\t';
  /** Whether dates with slashes have the day first: no country has decimal commas and the month first. */
  readonly dayFirst: boolean;
  /** Line that names the columns, from 1: a spreadsheet may put `sep=;` before it. */
  readonly headingLine: number;
}

const DELIMITERS = [',', ';', '\t'] as const;

const namesIn = (heading: string, delimiter: string): string[] =>
  heading.split(delimiter).map((name) => name.replace(/^[\s"]+|[\s"]+$/g, '').toLowerCase());

/**
 * The dialect of an input file: the delimiter by which most of its headings are known columns; where none is known,
 * that which makes most columns.
 * @param text the file, without a byte order mark
 * @param columns the columns that there may be
 */
export const dialectOf = (text: string, columns: readonly string[]): CsvDialect => {
  const lines = text.split(/\r\n?|\n/);
  const stated =
    /^"?sep=(.)"?$/i.exec(lines[0]?.trim() ?? '')?.[1] ?? (/^sep=\t$/i.test(lines[0] ?? '') ? '\t' : null);
  const from = stated === null ? 0 : 1;
  const at = lines.findIndex((line, i) => i >= from && line.trim() !== '');
  const heading = lines[at] ?? '';
  const scored = DELIMITERS.map((delimiter) => {
    const names = namesIn(heading, delimiter);
    return {
      delimiter,
      score: 1000 * names.filter((name) => columns.includes(name)).length + names.length,
    };
  }).sort((a, b) => b.score - a.score);
  const named = DELIMITERS.find((delimiter) => delimiter === stated);
  const delimiter = named ?? scored[0]!.delimiter;
  return {
    delimiter,
    dayFirst: delimiter !== ',' && DECIMAL_COMMA.test(text),
    headingLine: Math.max(at, 0) + 1,
  };
};

/** A cell with a decimal comma, between semicolons or tabs. */
const DECIMAL_COMMA = /(?:^|[;\t])"?-?[\d:]*\d,\d+"?(?=[;\t\r\n]|$)/m;

/** Spaces that set thousands apart. */
const THOUSANDS_SPACE = /(?<=\d)[\u0020\u00a0\u202f](?=\d{3}(?!\d))/g;

/**
 * A number or a length of time as a spreadsheet of any country writes it, with a decimal point: `12,5` is 12.5 and
 * `7:01,6` is 7:01.6.
 * @returns null where it may be read in two ways: `1,234` where commas may set thousands apart, `1.234` where commas
 * are decimal
 */
export const pointed = (cell: string, { delimiter }: Pick<CsvDialect, 'delimiter'>): string | null => {
  const text = cell.replace(THOUSANDS_SPACE, '');
  if (delimiter === ';' ? /^[-+]?[1-9]\d{0,2}\.\d{3}$/.test(text) : /^[-+]?[1-9]\d{0,2},\d{3}$/.test(text))
    return null;
  return /^[-+]?[\d:]*\d,\d+$/.test(text) ? text.replace(',', '.') : text;
};
