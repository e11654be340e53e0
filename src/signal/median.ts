/** Puts the value of rank `rank` in its place, smaller ones before it and larger after (Hoare 1961). */
const select = (values: Float64Array, rank: number): number => {
  let [low, high] = [0, values.length - 1];
  while (low < high) {
    // the middle of three keeps sorted and constant runs fast
    const [p, q, r] = [values[low]!, values[(low + high) >> 1]!, values[high]!];
    const pivot = Math.max(Math.min(p, q), Math.min(Math.max(p, q), r));
    let [i, j] = [low, high];
    while (i <= j) {
      while (values[i]! < pivot) i++;
      while (values[j]! > pivot) j--;
      if (i > j) break;
      const held = values[i]!;
      values[i] = values[j]!;
      values[j] = held;
      i++;
      j--;
    }
    if (rank <= j) high = j;
    else if (rank >= i) low = i;
    else break;
  }
  return values[rank]!;
};

/**
 * Quantile of values, interpolated linearly between order statistics (type 7 of Hyndman & Fan 1996).
 * @param values at least one, in any order, all finite; left as they are
 * @param share 0 to 1
 */
export const quantile = (values: Float64Array | readonly number[], share: number): number => {
  const copy = values instanceof Float64Array ? values.slice() : Float64Array.from(values);
  const at = share * (copy.length - 1);
  const rank = Math.floor(at);
  const low = select(copy, rank);
  if (at === rank) return low;
  let next = copy[rank + 1]!;
  for (let i = rank + 2; i < copy.length; i++) if (copy[i]! < next) next = copy[i]!;
  return low + (at - rank) * (next - low);
};

/** The middle value, or the mean of the two in the middle. */
export const median = (values: Float64Array | readonly number[]): number => quantile(values, 0.5);

/**
 * Standard deviation as the bulk of the values shows it: 1.4826 times the median distance from the median,
 * which is the standard deviation where they are normal.
 */
export const robustScale = (values: Float64Array | readonly number[]): number => {
  const middle = median(values);
  return 1.4826 * median(Float64Array.from(values, (value) => Math.abs(value - middle)));
};

/**
 * Running median over 2·half + 1 values, fewer at the ends.
 * @param values short series, such as rates of strokes
 */
export const runningMedian = (values: readonly number[], half: number): number[] =>
  values.map((_, i) => median(values.slice(Math.max(0, i - half), i + half + 1)));
