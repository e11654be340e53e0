/** Points drawn with one mark. */
export interface PlotSeries {
  /** One character. */
  readonly mark: string;
  readonly points: readonly (readonly [x: number, y: number])[];
}

/** What a small plot shows. */
export interface Plot {
  /** Drawn in order: a later mark covers an earlier one. */
  readonly series: readonly PlotSeries[];
  /** Characters across and down, axes left out. */
  readonly columns: number;
  readonly lines: number;
  readonly xLabel: (x: number) => string;
  readonly yLabel: (y: number) => string;
  /** Characters for the labels at least, so that plots stand under one another. */
  readonly margin?: number;
}

const range = (values: readonly number[]): readonly [number, number] => {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  return high > low ? [low, high] : [low - 0.5, high + 0.5];
};

/**
 * A small character plot, axis labels at the corners; no lines where there are no points.
 * @returns lines of text
 */
export const plotLines = ({
  series,
  columns,
  lines,
  xLabel,
  yLabel,
  margin: least = 0,
}: Plot): readonly string[] => {
  const points = series.flatMap((each) => each.points);
  if (points.length === 0) return [];
  const [left, right] = range(points.map(([x]) => x));
  const [bottom, top] = range(points.map(([, y]) => y));
  const grid = Array.from({ length: lines }, () => Array.from({ length: columns }, () => ' '));
  for (const each of series)
    for (const [x, y] of each.points) {
      const column = Math.round(((x - left) / (right - left)) * (columns - 1));
      const line = Math.round(((top - y) / (top - bottom)) * (lines - 1));
      grid[line]![column] = each.mark;
    }
  const labels = grid.map((_, i) => (i === 0 ? yLabel(top) : i === lines - 1 ? yLabel(bottom) : ''));
  const margin = Math.max(least, ...labels.map((label) => label.length));
  const [from, to] = [xLabel(left), xLabel(right)];
  return [
    ...grid.map((cells, i) => `${labels[i]!.padStart(margin)} |${cells.join('').trimEnd()}`),
    `${' '.repeat(margin)} +${'-'.repeat(columns)}`,
    `${' '.repeat(margin + 2)}${from}${to.padStart(Math.max(1, columns - from.length))}`,
  ];
};
