import type { SpeedUnit } from '../units/speed.js';

/** One column of a table for people. */
export interface Column {
  readonly heading: string;
  readonly align: 'left' | 'right';
  /** Left out where no row has a value for it. */
  readonly whereKnown?: true;
}

/** A table with its title and what has to be said below it. */
export interface Section {
  readonly title: string | null;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly string[])[];
  readonly notes: readonly string[];
  /** Lines of a character plot, shown as they are. */
  readonly drawing?: readonly string[];
}

/** A sentence on its own. */
export const noteSection = (note: string): Section => ({ title: null, columns: [], rows: [], notes: [note] });

/** A character plot on its own. */
export const drawingSection = (drawing: readonly string[]): Section => ({
  title: null,
  columns: [],
  rows: [],
  notes: [],
  drawing,
});

/** How people want to read a result. */
export interface Reading {
  /** Null: the usual unit of the craft. */
  readonly speed: SpeedUnit | null;
  /** IANA time zone. */
  readonly zone: string;
  /** Plain ASCII. */
  readonly plain: boolean;
  readonly bold: boolean;
  /** Characters on a line. */
  readonly width: number;
}

/** A column of figures. */
export const figures = (heading: string): Column => ({ heading, align: 'right' });

/** A column of figures that is left out where no row has one. */
export const figuresWhereKnown = (heading: string): Column => ({ heading, align: 'right', whereKnown: true });

/** A column of words; the only ones that are broken over lines where the table is too wide. */
export const words = (heading: string): Column => ({ heading, align: 'left' });

/** A list of names and values without a heading. */
export const facts = (title: string, rows: readonly (readonly [string, string])[]): Section => ({
  title,
  columns: [words(''), words('')],
  rows,
  notes: [],
});
