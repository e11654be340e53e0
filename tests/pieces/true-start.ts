import type { Truth } from '../../src/simulate/truth.js';

/** How long after the start of a stretch a boat from rest is surely under way, s. */
const UNDER_WAY_S = 6;

/** When the boat really moved first at the standing start of a stretch, s: back from its first strokes to rest. */
export const trueStart = ({ speedMps, stepS }: Truth, stretchFromS: number): number => {
  let i = Math.round((stretchFromS + UNDER_WAY_S) / stepS);
  while (i > 0 && speedMps[i]! > 0.5) i--;
  while (i > 0 && speedMps[i]! > 0.03 && speedMps[i]! >= speedMps[i - 1]!) i--;
  return i * stepS;
};
