/** Characters that JSON allows as they are and a terminal obeys. */
const OBEYED = /[\u007f-\u009f\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]/g;

const escaped = (text: string): string =>
  text.replace(OBEYED, (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`);

/** A settled result as JSON for people and programs, keys in the order of the contract. */
export const jsonText = (result: unknown): string => `${escaped(JSON.stringify(result, null, 2))}\n`;

/** Settled rows as JSON, one a line. */
export const ndjsonText = (rows: readonly unknown[]): string =>
  rows.map((row) => `${escaped(JSON.stringify(row))}\n`).join('');
