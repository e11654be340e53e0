import type { ComparedMean, ComparedVariation } from '../contract/piece-detail.js';
import type { Difference } from './compared-variation.js';
import { VERDICT_SETTINGS, verdictOf } from './compared-verdict.js';

/** Fewer pieces tell nothing of how they differ among themselves. */
const FEWEST = 3;

/** Student's t, two-sided 95 %, for 2, 3, … degrees of freedom (any table); 2 beyond. */
const STUDENT_T: readonly number[] = Object.freeze([
  4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.16, 2.145, 2.131, 2.12,
]);

/**
 * All compared pieces together. Their sd is that of two days, which more pieces do not make smaller, with that of
 * the logs, or with how the pieces differ among themselves where that is more.
 * @returns null where fewer than three have a difference with an sd
 */
export const comparedMeanOf = (
  known: readonly Difference[],
  variation: ComparedVariation,
): ComparedMean | null => {
  const count = known.length;
  if (count < FEWEST) return null;
  const mean = known.reduce((sum, { pct }) => sum + pct, 0) / count;
  const scatter = known.reduce((sum, { pct }) => sum + (pct - mean) ** 2, 0) / (count - 1);
  const logs = known.reduce((sum, { logSdPct }) => sum + logSdPct ** 2, 0) / count;
  const piecesSd = Math.sqrt(Math.max(scatter, logs) / count);
  const daysSd = Math.SQRT2 * variation.variation_pct;
  const sdPct = Math.hypot(daysSd, piecesSd);
  const limit = Math.hypot(
    VERDICT_SETTINGS.sds * daysSd,
    (STUDENT_T[count - FEWEST] ?? VERDICT_SETTINGS.sds) * piecesSd,
  );
  return {
    piece_count: count,
    difference_pct: mean,
    difference_sd_pct: sdPct,
    verdict: verdictOf(mean, sdPct, sdPct === 0 ? VERDICT_SETTINGS.sds : limit / sdPct),
  };
};
