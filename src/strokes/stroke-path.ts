import { EVENT_SETTINGS } from './stroke-settings.js';

/** A place in the signal that may be a stroke. */
export interface Candidate {
  readonly atS: number;
  /** Gain of calling it a stroke: a log-likelihood ratio, bounded. */
  readonly score: number;
  /** Its height, where 1 is usual around it. */
  readonly share: number;
}

/** What one rowing interval of strokes may look like. */
export interface PathLimits {
  readonly leastIntervalS: number;
  readonly mostIntervalS: number;
}

/** Cost of a change of interval, by the logarithm of the ratio of the two. */
const changeCostOfLog = (logRatio: number): number => {
  const sds = logRatio / EVENT_SETTINGS.intervalSd;
  return Math.min(EVENT_SETTINGS.mostIntervalCost, 0.5 * sds * sds);
};

/** Cost of one interval following another: how far the rate jumped. @param ratio of the two intervals */
export const changeCost = (ratio: number): number => changeCostOfLog(Math.log(ratio));

/** Cost of one height following another: strokes and what lies between them alternate, strokes do not. */
const heightCost = (logRatio: number): number =>
  Math.min(EVENT_SETTINGS.mostHeightCost, 0.5 * (logRatio / EVENT_SETTINGS.heightSd) ** 2);

/**
 * The likeliest sequence of strokes among candidates: the sum of their scores, less a cost for every change
 * of interval or of height and for every rowing interval begun. Found exactly, by dynamic programming over pairs of candidates.
 * @param candidates in time order
 * @returns positions in `candidates`, and the total
 * @see Bellman 1957; Viterbi 1967
 */
export const strokePath = (
  candidates: readonly Candidate[],
  limits: PathLimits,
): { readonly chosen: readonly number[]; readonly total: number } => {
  const count = candidates.length;
  // state (i, j): i is a stroke and j the one before it in the same rowing interval; slot 0 of each i: i begins a rowing interval
  const offset = new Int32Array(count + 1);
  const firstBefore = new Int32Array(count);
  for (let i = 0, low = 0; i < count; i++) {
    while (candidates[i]!.atS - candidates[low]!.atS > limits.mostIntervalS) low++;
    firstBefore[i] = low;
    offset[i + 1] = offset[i]! + 1 + (i - low);
  }
  const best = new Float64Array(offset[count]!).fill(Number.NEGATIVE_INFINITY);
  const from = new Int32Array(offset[count]!).fill(-1);
  /** Logarithm of the interval that a state ends, where it ends one. */
  const logInterval = new Float64Array(offset[count]!);
  const bestEnd = new Float64Array(count + 1);
  const endState = new Int32Array(count + 1).fill(-1);
  const height = Float64Array.from(candidates, ({ share }) => Math.log(Math.max(0.05, share)));
  let lastFar = 0;
  for (let i = 0; i < count; i++) {
    const { atS, score } = candidates[i]!;
    while (lastFar < i && candidates[lastFar]!.atS <= atS - limits.leastIntervalS) lastFar++;
    const begin = offset[i]!;
    best[begin] = bestEnd[lastFar]! + score - EVENT_SETTINGS.beginCost;
    from[begin] = endState[lastFar]!;
    for (let j = firstBefore[i]!; j < i; j++) {
      const intervalS = atS - candidates[j]!.atS;
      if (intervalS < limits.leastIntervalS) break;
      const state = begin + 1 + (j - firstBefore[i]!);
      const logHere = Math.log(intervalS);
      logInterval[state] = logHere;
      let most = best[offset[j]!]!;
      let previous = offset[j]!;
      for (let earlier = offset[j]! + 1; earlier < offset[j + 1]!; earlier++) {
        if (best[earlier]! <= most) continue;
        const total = best[earlier]! - changeCostOfLog(logHere - logInterval[earlier]!);
        if (total > most) {
          most = total;
          previous = earlier;
        }
      }
      best[state] = most + score - heightCost(height[i]! - height[j]!);
      from[state] = previous;
    }
    bestEnd[i + 1] = bestEnd[i]!;
    endState[i + 1] = endState[i]!;
    for (let state = begin; state < offset[i + 1]!; state++)
      if (best[state]! > bestEnd[i + 1]!) {
        bestEnd[i + 1] = best[state]!;
        endState[i + 1] = state;
      }
  }
  const owner = new Int32Array(offset[count]!);
  for (let i = 0; i < count; i++) owner.fill(i, offset[i]!, offset[i + 1]!);
  const chosen: number[] = [];
  for (let state = endState[count]!; state >= 0; state = from[state]!) chosen.push(owner[state]!);
  return { chosen: chosen.reverse(), total: bestEnd[count]! };
};
