/**
 * Least sd of the time of a known shape in white noise: sd / sqrt(sum of its squared slopes).
 * @param shape evenly sampled shape
 * @param rateHz its rate
 * @param noiseSd sd of the noise of each sample, in the unit of the shape
 * @returns s
 * @see the Cramér-Rao bound for time of arrival: Kay, Fundamentals of Statistical Signal Processing I, ch. 3
 */
export const timingBoundS = (shape: ArrayLike<number>, rateHz: number, noiseSd: number): number => {
  let sum = 0;
  for (let i = 1; i + 1 < shape.length; i++) sum += (((shape[i + 1]! - shape[i - 1]!) * rateHz) / 2) ** 2;
  return noiseSd / Math.sqrt(sum);
};
