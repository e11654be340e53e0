import { quantileSorted } from 'd3-array';
import { domainOf } from './scale.js';

/** What a domain leaves out. */
export const USUAL = Object.freeze({
  /** Share of the values at either end that may lie beyond the scale; 0.02 to 0.06: a start has four such strokes in a hundred. */
  share: 0.04,
  /** A value within this many times the spread of the rest is still on the scale; 0.3 to 1. */
  reach: 0.5,
});

/**
 * A domain for values of which a few lie far off, as the strokes of a start do: the few do not squeeze the rest. What
 * lies near the rest is on the scale, all of it.
 * @param least narrower than this it does not get
 */
export const usualDomain = (values: readonly number[], least = 1e-6): readonly [number, number] => {
  const sorted = [...values].sort((a, b) => a - b);
  if (sorted.length === 0) return domainOf([]);
  const low = quantileSorted(sorted, USUAL.share)!;
  const high = quantileSorted(sorted, 1 - USUAL.share)!;
  const reach = USUAL.reach * (high - low);
  return domainOf([Math.max(sorted[0]!, low - reach), Math.min(sorted.at(-1)!, high + reach)], { least });
};
