import { median } from './median.js';

/** A line through points, and how sure its slope is. */
export interface TheilSen {
  readonly slope: number;
  /** Median of y - slope · x. */
  readonly intercept: number;
  /** Bounds of the slope, at 95 % unless asked otherwise. */
  readonly slopeLow: number;
  readonly slopeHigh: number;
}

/** Two-sided 95 % of the normal distribution, in sd. */
const TWO_SIDED_95 = 1.959964;

/**
 * Robust line: the median of the slopes of all pairs (Theil 1950; Sen 1968, JASA 63:1379-1389), with Sen's
 * interval from the variance of Kendall's S (ties in x among neighbours left out of the pairs).
 * @param x at least two different values
 * @param inflate variance of the points' errors / what it would be were they independent; 1 and more
 * @param sds half width of the interval in sd of the normal distribution: 1.96 is 95 %, 2.326 is 98 %
 * @returns null where all x are equal
 */
export const theilSen = (
  x: readonly number[],
  y: readonly number[],
  inflate = 1,
  sds = TWO_SIDED_95,
): TheilSen | null => {
  const count = x.length;
  const slopes: number[] = [];
  for (let i = 0; i < count; i++)
    for (let j = i + 1; j < count; j++) if (x[i] !== x[j]) slopes.push((y[j]! - y[i]!) / (x[j]! - x[i]!));
  if (slopes.length === 0) return null;
  const sorted = Float64Array.from(slopes).sort();
  const slope = median(sorted);
  const spread = sds * Math.sqrt((inflate * (count * (count - 1) * (2 * count + 5))) / 18);
  const rank = (value: number) => sorted[Math.max(0, Math.min(sorted.length - 1, Math.round(value)))]!;
  return {
    slope,
    intercept: median(y.map((value, i) => value - slope * x[i]!)),
    slopeLow: rank((sorted.length - spread) / 2 - 1),
    slopeHigh: rank((sorted.length + spread) / 2),
  };
};
