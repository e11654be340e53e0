import { nthSmallest } from '../units/nth-smallest.js';

/**
 * Quantile of values, interpolated linearly between order statistics (type 7 of Hyndman & Fan 1996).
 * @param values at least one, in any order; left as they are
 * @param share 0 to 1
 */
export const quantile = (values: Float64Array | readonly number[], share: number): number =>
  quantileInPlace(new Float64Array(values), share);

/** The same of values that may be put in another order: nothing is copied. */
export const quantileInPlace = (own: Float64Array, share: number): number => {
  const at = share * (own.length - 1);
  const place = Math.floor(at);
  const low = nthSmallest(own, place);
  if (at === place) return low;
  let high = own[place + 1]!;
  for (let i = place + 2; i < own.length; i++) high = Math.min(high, own[i]!);
  return low + (at - place) * (high - low);
};

/** The middle value, or the mean of the two in the middle. */
export const median = (values: Float64Array | readonly number[]): number => quantile(values, 0.5);

/**
 * Standard deviation as the bulk of the values shows it: 1.4826 times the median distance from the median,
 * which is the standard deviation where they are normal.
 */
export const robustScale = (values: Float64Array | readonly number[]): number => {
  const middle = median(values);
  const distances = new Float64Array(values.length);
  for (let i = 0; i < distances.length; i++) distances[i] = Math.abs(values[i]! - middle);
  return 1.4826 * quantileInPlace(distances, 0.5);
};

/**
 * Running median over 2·half + 1 values, fewer at the ends.
 * @param values short series, such as rates of strokes
 */
export const runningMedian = (values: readonly number[], half: number): number[] =>
  values.map((_, i) => median(values.slice(Math.max(0, i - half), i + half + 1)));
