import type { ComparedRow } from '../contract/piece-detail.js';

/** When a difference between two days is reported. */
export const VERDICT_SETTINGS = Object.freeze({
  /** Beyond so many sd: 95 in 100 differences that are none lie within. */
  sds: 2,
  /** Smallest change of speed that matters, % (Smith & Hopkins 2012; Holt 2020: about 0.3). */
  smallestPct: 0.3,
});

/**
 * What is reported of a difference.
 * @param pct the difference, %
 * @param sdPct its sd, %
 * @param sds how many of them it has to exceed
 */
export const verdictOf = (
  pct: number,
  sdPct: number,
  sds: number = VERDICT_SETTINGS.sds,
): NonNullable<ComparedRow['verdict']> => {
  if (Math.abs(pct) <= sds * sdPct) return 'no_difference_shown';
  if (Math.abs(pct) < VERDICT_SETTINGS.smallestPct) return 'too_small_to_matter';
  return pct > 0 ? 'faster' : 'slower';
};
