import { parse } from 'csv-parse/sync';

const OPTIONS = {
  record_delimiter: ['\r\n', '\n', '\r'],
  relax_column_count: true,
  relax_quotes: true,
  skip_empty_lines: true,
  trim: true,
  comment: '#',
  comment_no_infix: true,
  bom: true,
};

/**
 * Rows of cells of CSV text; lines that are empty or begin with `#` are left out. Where quotes do not match,
 * they are taken as they stand, so that no row is lost to one.
 */
export const csvRows = (text: string, delimiter: string): string[][] => {
  try {
    return parse(text, { ...OPTIONS, delimiter });
  } catch {
    return parse(text, { ...OPTIONS, delimiter, quote: false });
  }
};
