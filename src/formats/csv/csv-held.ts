/** When values are held from row to row. */
export const CSV_HELD_SETTINGS = Object.freeze({
  /** Rows; below this a held value shows nothing. */
  fewestRows: 100,
  /** Rows for which a value is usually held; 3 keeps a receiver that repeats a fix at rest out of it. */
  shortestHold: 3,
});

/**
 * Rows of a track that a motion log repeats in every row until the next fix: true where a row holds a new fix,
 * or one that did not change after the usual number of rows.
 * @returns null where values are not held
 */
export const freshRows = (columns: readonly Float64Array[]): Uint8Array | null => {
  const rowCount = columns[0]!.length;
  const runs: { from: number; length: number }[] = [];
  for (let row = 0; row < rowCount; row++) {
    if (!columns.every((column) => Number.isFinite(column[row]!))) continue;
    const run = runs[runs.length - 1];
    if (run !== undefined && columns.every((column) => column[row] === column[run.from])) run.length++;
    else runs.push({ from: row, length: 1 });
  }
  const held = runs.reduce((sum, { length }) => sum + length, 0);
  const lengths = Float64Array.from(runs, ({ length }) => length).sort();
  const usual = lengths[lengths.length >> 1] ?? 0;
  if (held < CSV_HELD_SETTINGS.fewestRows || usual < CSV_HELD_SETTINGS.shortestHold) return null;
  const fresh = new Uint8Array(rowCount);
  for (const { from, length } of runs)
    for (let at = 0; at < length; at += usual) if (at === 0 || length - at > usual / 2) fresh[from + at] = 1;
  return fresh;
};
