import { LogTooLarge, READ_BOUNDS } from './log-too-large.js';

/** Rows of numbers that grow; a column that nothing is put into takes no room. */
export interface SampleRows {
  readonly count: () => number;
  /** Begin a row; all its values are missing (NaN) until put. */
  readonly begin: () => void;
  /** Put a value into the row begun last. */
  readonly put: (column: number, value: number) => void;
  /** The value in the row begun last; NaN where missing. */
  readonly last: (column: number) => number;
  /** A column over all rows; null where nothing was put. */
  readonly column: (column: number) => Float64Array | null;
}

const FIRST_CAPACITY = 1024;

/** Empty rows of `width` columns. */
export const makeSampleRows = (width: number): SampleRows => {
  const columns = new Array<Float64Array | null>(width).fill(null);
  let capacity = FIRST_CAPACITY;
  let count = 0;
  const grow = (): void => {
    capacity *= 2;
    columns.forEach((column, i) => {
      if (column === null) return;
      const longer = new Float64Array(capacity).fill(Number.NaN, column.length);
      longer.set(column);
      columns[i] = longer;
    });
  };
  return {
    count: () => count,
    begin: () => {
      if (count === READ_BOUNDS.samples) throw new LogTooLarge(`more than ${count} samples`);
      if (count === capacity) grow();
      count++;
    },
    put: (column, value) => {
      let into = columns[column] ?? null;
      if (into === null) {
        into = new Float64Array(capacity).fill(Number.NaN);
        columns[column] = into;
      }
      into[count - 1] = value;
    },
    last: (column) => columns[column]?.[count - 1] ?? Number.NaN,
    column: (column) => columns[column]?.subarray(0, count) ?? null,
  };
};
