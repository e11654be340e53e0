import { ACCURACY_RANGE } from '../recording/index.js';

/** Sd of a position component, m, over the radius that holds 68 % of a round normal error: 1 / sqrt(-2 ln 0.32). */
const SD_OF_RADIUS_68 = 1 / Math.sqrt(-2 * Math.log(0.32));

/** Position sd that a log's own accuracy fields (68 % radius, m) state: the median; null without any. */
export const statedSdM = (accuracyM: Float64Array): number | null => {
  const stated = accuracyM
    .filter((value) => value > ACCURACY_RANGE.low && value <= ACCURACY_RANGE.high)
    .sort();
  return stated.length === 0 ? null : stated[stated.length >> 1]! * SD_OF_RADIUS_68;
};
