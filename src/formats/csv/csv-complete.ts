const LF = 10;
const CR = 13;

const lineStart = (bytes: Uint8Array, end: number): number => {
  let at = end;
  while (at > 0 && bytes[at - 1] !== LF && bytes[at - 1] !== CR) at--;
  return at;
};

const lastCell = (line: string): string => /[^,;\t|]*$/.exec(line)![0].trim();

const separatorCount = (line: string): number => line.match(/[,;\t|]/g)?.length ?? 0;

const decimalCount = (cell: string): number => /[.]\d*$/.exec(cell)?.[0].length ?? 0;

/**
 * The byte after the last row that is surely complete. A last line without an end whose last cell is shorter
 * than that of the line before (fewer decimals, or fewer characters of a whole number), or that has fewer
 * cells, was cut off in writing: its last cell may be half a number.
 * @returns the length of the bytes where nothing is cut
 */
export const completeEnd = (bytes: Uint8Array): number => {
  const end = bytes.length;
  const last = bytes[end - 1];
  // A zero byte is half a character of UTF-16, of which no line end can be known here.
  if (end === 0 || last === LF || last === CR || last === 0 || bytes[end - 2] === 0) return end;
  const from = lineStart(bytes, end);
  if (from === 0) return end;
  const beforeEnd = from - (bytes[from - 1] === LF && bytes[from - 2] === CR ? 2 : 1);
  const text = (start: number, stop: number): string => new TextDecoder().decode(bytes.subarray(start, stop));
  const lines = [text(from, end), text(lineStart(bytes, beforeEnd), beforeEnd)] as const;
  if (separatorCount(lines[0]) < separatorCount(lines[1])) return from;
  const [cell, before] = [lastCell(lines[0]), lastCell(lines[1])];
  // After the header there is nothing to compare with.
  if (!/\d/.test(before)) return from;
  const cut =
    decimalCount(before) > 0
      ? decimalCount(cell) < decimalCount(before)
      : cell.replace(/^-/, '').length < before.replace(/^-/, '').length;
  return cut ? from : end;
};
