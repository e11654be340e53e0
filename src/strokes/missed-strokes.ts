import { median } from '../signal/index.js';
import type { Candidate } from './stroke-path.js';
import { EVENT_SETTINGS } from './stroke-settings.js';

/**
 * Strokes that a path left out although its neighbours tell that one was there: an interval of two or three
 * usual ones, with a candidate near every place where a stroke was due.
 * @param chosen positions in `candidates`, in order
 * @param mostIntervalS longest interval within a rowing interval
 * @returns positions in `candidates`, in order, with what was missed
 */
export const withMissed = (
  candidates: readonly Candidate[],
  chosen: readonly number[],
  mostIntervalS: number,
): readonly number[] => {
  const { nearIntervals, mostTimes, sameShare, dueShare } = EVENT_SETTINGS.missed;
  const at = (k: number) => candidates[chosen[k]!]!.atS;
  const intervals = chosen.slice(1).map((_, k) => at(k + 1) - at(k));
  return chosen.flatMap((own, k) => {
    const whole = intervals[k];
    if (whole === undefined) return [own];
    const near = intervals
      .slice(Math.max(0, k - nearIntervals), k + nearIntervals + 1)
      .filter((interval) => interval <= mostIntervalS);
    if (near.length === 0) return [own];
    const usual = median(near);
    const times = Math.round(whole / usual);
    if (times < 2 || times > mostTimes || Math.abs(whole / times / usual - 1) > sameShare) return [own];
    const due = Array.from({ length: times - 1 }, (_, n) => at(k) + ((n + 1) * whole) / times);
    const found = due.map((dueS) => {
      let best = -1;
      for (let i = own + 1; i < chosen[k + 1]!; i++)
        if (
          Math.abs(candidates[i]!.atS - dueS) <= (dueShare * whole) / times &&
          (best < 0 || candidates[i]!.score > candidates[best]!.score)
        )
          best = i;
      return best;
    });
    return found.some((i) => i < 0) ? [own] : [own, ...found];
  });
};
