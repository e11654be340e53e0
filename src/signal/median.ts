/**
 * Quantile of values, interpolated linearly between order statistics (type 7 of Hyndman & Fan 1996).
 * @param values at least one, in any order; left as they are
 * @param share 0 to 1
 */
export const quantile = (values: Float64Array | readonly number[], share: number): number => {
  const sorted = Float64Array.from(values).sort();
  const at = share * (sorted.length - 1);
  const low = Math.floor(at);
  const high = Math.min(low + 1, sorted.length - 1);
  return sorted[low]! + (at - low) * (sorted[high]! - sorted[low]!);
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
