import type { Channel } from '../recording/index.js';
import { median } from '../signal/index.js';

/** Weights of a sixth difference: it passes what changes from sample to sample, and of a stroke next to nothing. */
const WEIGHTS = [1, -6, 15, -20, 15, -6, 1];
const NORM = Math.sqrt(WEIGHTS.reduce((sum, weight) => sum + weight * weight, 0));
/** Standard deviations of a normal law in its median absolute deviation. */
const MAD_TO_SD = 1.4826;
/** Most differences looked at an axis, and the fewest that tell anything. */
const MOST = 20_000;
const FEWEST = 50;

const axisSd = (values: Float64Array): number | null => {
  const count = values.length - WEIGHTS.length + 1;
  if (count < FEWEST) return null;
  const stride = Math.ceil(count / MOST);
  const sizes = new Float64Array(Math.floor(count / stride));
  for (let k = 0; k < sizes.length; k++) {
    let sum = 0;
    for (let j = 0; j < WEIGHTS.length; j++) sum += WEIGHTS[j]! * values[k * stride + j]!;
    sizes[k] = Math.abs(sum) / NORM;
  }
  return MAD_TO_SD * median(sizes);
};

/**
 * sd of an accelerometer's noise, m/s²: what differs from sample to sample and is too fast for a stroke, the
 * mean over the axes. Robust, so a few knocks do not count (median of absolute differences, Donoho & Johnstone
 * 1994).
 * @returns null with too few samples
 */
export const accelerationNoiseMps2 = (acceleration: Channel): number | null => {
  const sds = acceleration.columns.map(axisSd);
  return sds.every((sd) => sd !== null) ? sds.reduce((sum, sd) => sum + sd!, 0) / sds.length : null;
};
