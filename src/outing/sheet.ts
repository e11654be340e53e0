import { type CsvLine, parseCsvFile } from '../contract/located-csv.js';
import { type SheetRow, sheetRow } from '../contract/sheet.js';
import { CRAFT_CODES } from '../units/craft.js';
import { parseStream } from '../units/stream.js';
import { UserError } from '../units/user-error.js';

/** The columns of an outing sheet, in the order in which messages name them. */
const COLUMNS = Object.keys(sheetRow.shape) as (keyof SheetRow)[];

/** Between the names in the `seats` cell. */
const SEAT_SEPARATOR = /\s*[/;|]\s*/;

const VALUE_OF: {
  readonly [Key in keyof SheetRow]: (cell: string) => unknown;
} = {
  file: (cell) => cell,
  crew: (cell) => cell,
  craft: (cell) => CRAFT_CODES.find((code) => code.toLowerCase() === cell.toLowerCase()) ?? cell,
  seats: (cell) => cell.split(SEAT_SEPARATOR).filter((seat) => seat !== ''),
  placement: (cell) => cell.toLowerCase(),
  wind: (cell) => cell,
  wind_mps: (cell) => Number(cell),
  wind_from_deg: (cell) => Number(cell),
  stream: (cell) => {
    parseStream(cell);
    return cell;
  },
  notes: (cell) => cell,
};

const REQUIRED: Readonly<Partial<Record<keyof SheetRow, string>>> = {
  file: 'the name of a log is required',
  craft: `a class code is required (${CRAFT_CODES.join(' ')})`,
  wind_mps: 'the speed of the wind in m/s, 0 to 40, is required',
  wind_from_deg: 'the direction that the wind comes from, 0 to 360 degrees, is required',
  placement: 'one of hull, cox, wrist, pocket, body or unknown is required',
};

const rowOf = (line: CsvLine): SheetRow => {
  const draft = Object.fromEntries(
    COLUMNS.map((column) => {
      const cell = line.cell(column);
      try {
        return [column, cell === '' ? null : VALUE_OF[column](cell)];
      } catch (error) {
        if (error instanceof UserError) throw line.errorAt(column, error.message);
        throw error;
      }
    }),
  );
  const checked = sheetRow.safeParse(draft);
  if (checked.success) return checked.data;
  const column = checked.error.issues[0]!.path[0] as keyof SheetRow;
  const came = draft[column] === null ? 'nothing' : `"${line.cell(column)}"`;
  throw line.errorAt(column, `${REQUIRED[column] ?? 'another value is required'}, and ${came} came`);
};

/** What is wrong with a row. */
export interface SheetFault {
  /** The log that it names. */
  readonly file: string;
  /** Sheet, line, column and what is wrong. */
  readonly message: string;
}

/** An outing sheet as far as it is valid. */
export interface OutingSheet {
  readonly rows: readonly SheetRow[];
  readonly faults: readonly SheetFault[];
}

/**
 * Read an outing sheet: CSV with the columns file, crew, craft, seats (bow to stroke, with / between the
 * names), placement, wind, wind_mps, wind_from_deg, stream (MPS@DEG) and notes; all but file may be left out.
 * @param name the sheet as messages name it
 * @returns the rows, and what is wrong with those that are not valid: each concerns the log it names alone
 * @throws UserError with line and column where the sheet as a whole is not valid
 */
export const parseOutingSheet = (text: string, name: string): OutingSheet => {
  const seen = new Map<string, number>();
  const rows: SheetRow[] = [];
  const faults: SheetFault[] = [];
  for (const line of parseCsvFile(text, name, COLUMNS, 1)) {
    const file = line.cell('file');
    if (file === '') throw line.errorAt('file', `${REQUIRED.file}, and nothing came`);
    try {
      const earlier = seen.get(file);
      if (earlier !== undefined)
        throw line.errorAt('file', `"${file}" stands in line ${earlier} already: keep one of them`);
      seen.set(file, line.line);
      rows.push(rowOf(line));
    } catch (error) {
      if (!(error instanceof UserError)) throw error;
      faults.push({ file, message: error.message });
    }
  }
  return { rows, faults };
};

/** Whether a text that is called like an outing sheet is one: its first line names the column `file`. */
export const isOutingSheet = (text: string): boolean =>
  (/\S[^\r\n]*/.exec(text.replace(/^\uFEFF|^"?sep=.*$/im, ''))?.[0] ?? '')
    .split(/[,;\t]/)
    .some((name) => name.replace(/["\s]/g, '').toLowerCase() === 'file');
