import type { Picture } from './drawing/picture.js';
import type { MapShape } from './map/map-shape.js';
import type { Reading, Section } from './section.js';

/** One value of a row. */
export type Cell = string | number | boolean | null;

/** How one kind of result is reported: as rows for machines, as tables for people. */
export interface View<Result> {
  /** The headings of CSV, in order, also where there is no row. */
  readonly keys: readonly string[];
  /** Rows for NDJSON; parts of a row stay inside it. */
  readonly rows: (result: Result) => readonly object[];
  /** Rows for CSV: flat, by key. */
  readonly cells: (result: Result) => readonly Readonly<Record<string, Cell>>[];
  readonly sections: (result: Result, reading: Reading) => readonly Section[];
  /** What a map shows of it; none where it holds no places. */
  readonly shapes?: (result: Result) => readonly MapShape[];
  /** Its pictures, loaded only when a page is asked for; none where tables say all. */
  readonly pictures?: () => Promise<(result: Result, reading: Reading) => readonly Picture[]>;
}

/** What of a row is a single value: lists are left out, a group's keys are joined to its name. */
export const flat = (row: object, prefix = ''): Record<string, Cell> =>
  Object.fromEntries(
    Object.entries(row).flatMap(([key, value]): [string, Cell][] => {
      if (Array.isArray(value) || value === undefined) return [];
      if (value !== null && typeof value === 'object') return Object.entries(flat(value, `${prefix}${key}_`));
      return [[`${prefix}${key}`, value as Cell]];
    }),
  );
