import { median, robustScale } from '../signal/index.js';

/** How detected strokes compare with marked ones. */
export interface StrokeScore {
  /** Detected strokes that have a marked one of their own. */
  readonly matchedCount: number;
  /** Detected strokes that have none. */
  readonly falseCount: number;
  /** Marked strokes that were not detected. */
  readonly missedCount: number;
  /** Matched / marked; null without marked strokes. */
  readonly sensitivity: number | null;
  /** Matched / detected (+P); null without detected strokes. */
  readonly positivePredictivity: number | null;
  /** Harmonic mean of both; null where either is. */
  readonly f1: number | null;
  /** Median of detected less marked time, s; null without matches. */
  readonly biasS: number | null;
  /** Robust standard deviation of that difference, s; null without matches. */
  readonly dispersionS: number | null;
  /** For each detected stroke, whether it matched. */
  readonly matched: readonly boolean[];
}

/** Window of one match, s: the standard's own. */
export const MATCH_WINDOW_S = 0.15;

/**
 * Score detected strokes against marked ones: matches are one to one, within a window, nearest pairs first.
 * @param detectedS increasing times, s
 * @param markedS increasing times, s
 * @param windowS greatest distance of a match, s
 * @see ANSI/AAMI EC57 (event by event comparison: sensitivity and positive predictivity)
 */
export const scoreStrokes = (
  detectedS: readonly number[],
  markedS: readonly number[],
  windowS = MATCH_WINDOW_S,
): StrokeScore => {
  const pairs: { d: number; m: number; apart: number }[] = [];
  let low = 0;
  for (const [m, atS] of markedS.entries()) {
    while (low < detectedS.length && detectedS[low]! < atS - windowS) low++;
    for (let d = low; d < detectedS.length && detectedS[d]! <= atS + windowS; d++)
      pairs.push({ d, m, apart: detectedS[d]! - atS });
  }
  pairs.sort((p, q) => Math.abs(p.apart) - Math.abs(q.apart) || p.m - q.m || p.d - q.d);
  const matched = detectedS.map(() => false);
  const taken = markedS.map(() => false);
  const apart: number[] = [];
  for (const pair of pairs) {
    if (matched[pair.d] || taken[pair.m]) continue;
    matched[pair.d] = true;
    taken[pair.m] = true;
    apart.push(pair.apart);
  }
  const matchedCount = apart.length;
  const sensitivity = markedS.length > 0 ? matchedCount / markedS.length : null;
  const positivePredictivity = detectedS.length > 0 ? matchedCount / detectedS.length : null;
  const both = detectedS.length + markedS.length;
  return {
    matchedCount,
    falseCount: detectedS.length - matchedCount,
    missedCount: markedS.length - matchedCount,
    sensitivity,
    positivePredictivity,
    f1: sensitivity === null || positivePredictivity === null ? null : (2 * matchedCount) / both,
    biasS: matchedCount > 0 ? median(apart) : null,
    dispersionS: matchedCount > 0 ? robustScale(apart) : null,
    matched,
  };
};
