import type { ComparedVariation } from '../contract/piece-detail.js';
import { CREW_VARIATION_PCT } from '../units/crew-variation.js';

/** Fewer pairs show nothing of how pieces differ among themselves. */
const FEWEST = 3;

/** A difference between two pieces as the logs have it, %. */
export interface Difference {
  readonly pct: number;
  readonly logSdPct: number;
}

/**
 * How much the crew differs from day to day: as given; else as published, or as its own pieces differ among
 * themselves where that is more. Pieces of one day cannot show less: what a whole day adds is common to them.
 * @param givenPct sd, %; null where none was given
 */
export const comparedVariation = (
  differences: readonly Difference[],
  givenPct: number | null,
): ComparedVariation => {
  if (givenPct !== null) return { variation_pct: givenPct, variation_by: 'given' };
  const published = { variation_pct: CREW_VARIATION_PCT, variation_by: 'published' } as const;
  const count = differences.length;
  if (count < FEWEST) return published;
  const mean = differences.reduce((sum, { pct }) => sum + pct, 0) / count;
  const scatter = differences.reduce((sum, { pct }) => sum + (pct - mean) ** 2, 0) / (count - 1);
  const logs = differences.reduce((sum, { logSdPct }) => sum + logSdPct ** 2, 0) / count;
  // A difference holds two pieces.
  const seen = Math.sqrt(Math.max(0, scatter - logs) / 2);
  return seen > CREW_VARIATION_PCT ? { variation_pct: seen, variation_by: 'pieces' } : published;
};
