import { UNKNOWN } from './cells.js';
import type { Section } from './section.js';

/** A section without the columns that no row has a value for. */
export const knownColumns = (section: Section): Section => {
  const kept = section.columns
    .map((column, i) => ({ column, i }))
    .filter(({ column, i }) => !column.whereKnown || section.rows.some((row) => row[i] !== UNKNOWN));
  return {
    ...section,
    columns: kept.map(({ column }) => column),
    rows: section.rows.map((row) => kept.map(({ i }) => row[i]!)),
  };
};
