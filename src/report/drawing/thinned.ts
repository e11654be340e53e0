/** A point on a drawing, px; null is a gap. */
export type Point = readonly [x: number, y: number];

/**
 * A line with no more points than can be seen: of every column of pixels the first, the last, the lowest and the
 * highest, which draws the same pixels as all of them (Jugel, Jerzak, Hackenbroich and Markl 2014, M4: a
 * visualization-oriented time series data aggregation, PVLDB 7(10):797-808). Gaps stay.
 * @param points from left to right
 * @param columnPx width of a column, px
 */
export const thinned = (points: readonly (Point | null)[], columnPx = 1): readonly (Point | null)[] => {
  const kept: (Point | null)[] = [];
  let column: Point[] = [];
  const close = () => {
    if (column.length > 0) kept.push(...extremes(column));
    column = [];
  };
  for (const point of points) {
    if (point === null) {
      close();
      if (kept.length > 0 && kept.at(-1) !== null) kept.push(null);
      continue;
    }
    const first = column[0];
    if (first !== undefined && Math.floor(first[0] / columnPx) !== Math.floor(point[0] / columnPx)) close();
    column.push(point);
  }
  close();
  return kept;
};

/** First, lowest, highest and last of one column, in their order, each once. */
const extremes = (column: readonly Point[]): Point[] => {
  if (column.length <= 4) return [...column];
  let [low, high] = [0, 0];
  for (let i = 1; i < column.length; i++) {
    if (column[i]![1] < column[low]![1]) low = i;
    if (column[i]![1] > column[high]![1]) high = i;
  }
  return [...new Set([0, low, high, column.length - 1])].sort((a, b) => a - b).map((i) => column[i]!);
};
