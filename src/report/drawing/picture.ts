import type { Section } from '../section.js';

/** A picture drawn at one width. */
export interface Drawing {
  readonly width: number;
  readonly height: number;
  /** What stands inside its `svg` element. */
  readonly markup: string;
}

/** What is shown where a reader points: the values nearest to that place. */
export interface Pointer {
  /** Values of the axis that runs along, rising; with `y` places on a map, in any order. */
  readonly x: readonly number[];
  readonly y?: readonly number[];
  /** What stands at each of them, a list of texts a name. */
  readonly shown: Readonly<Record<string, readonly string[]>>;
}

/** One picture of a page; each answers one question. */
export interface Picture {
  /** The question that it answers, or what it shows. */
  readonly title: string;
  /** For those who do not see it: what is drawn, and the figures that matter. */
  readonly description: string;
  /** @param width of the drawing in its own pixels; text stays as large whatever it is */
  readonly draw: (width: number) => Drawing;
  readonly pointers: readonly Pointer[];
  /** Its numbers; null where a table of the page has all of them. */
  readonly numbers: Section | null;
  /** How to read it, and what is left out. */
  readonly notes: readonly string[];
}

/** Widths at which each picture is drawn, in its own pixels: for desk and paper, and for a phone. */
export const WIDTHS = Object.freeze({ wide: 760, narrow: 350 });
