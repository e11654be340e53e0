import { MOTION_SETTINGS } from './settings.js';
import type { Smoothed } from './smoothed.js';

/** Mean place of the fixes from one knot up to another (not included), or null where there are none. */
const meanFix = ({ section }: Smoothed, from: number, to: number) => {
  let [east, north, count] = [0, 0, 0];
  for (let k = from; k < to; k++) {
    if (!section.hasFix[k]) continue;
    east += section.eastM[k]!;
    north += section.northM[k]!;
    count++;
  }
  return count === 0 ? null : { east: east / count, north: north / count };
};

/**
 * Where a slow boat lay still: its way from the first to the last quarter of the stretch, and its farthest
 * point, are no more than the wandering error makes. A boat that drifts farther than that is moving.
 * @returns 1 at every knot that begins a still step
 */
export const stillSteps = (smoothed: Smoothed): Uint8Array => {
  const { section, slow, model } = smoothed;
  const still = new Uint8Array(section.count);
  const errorSdM = Math.hypot(model.wander.sdM, model.whiteSdM);
  let from = 0;
  while (from < section.count) {
    if (!slow[from]) {
      from++;
      continue;
    }
    let to = from;
    while (to + 1 < section.count && slow[to + 1]) to++;
    const lengthS = section.atS[to]! - section.atS[from]!;
    if (lengthS >= MOTION_SETTINGS.leastStillS) {
      const quarter = Math.max(1, Math.floor((to - from + 1) / 4));
      const begin = meanFix(smoothed, from, from + quarter);
      const end = meanFix(smoothed, to + 1 - quarter, to + 1);
      const all = meanFix(smoothed, from, to + 1);
      if (begin && end && all) {
        // Two quarters are 3/4 of the stretch apart, so as much of the error is shared as this leaves.
        const shared = Math.exp((-0.75 * lengthS) / model.wander.correlationS);
        const limitM = MOTION_SETTINGS.stillSds * errorSdM * Math.sqrt(2 * (1 - shared));
        let farthestM = 0;
        for (let k = from; k <= to; k++)
          farthestM = Math.max(
            farthestM,
            Math.hypot(smoothed.eastM[k]! - all.east, smoothed.northM[k]! - all.north),
          );
        const movedM = Math.hypot(end.east - begin.east, end.north - begin.north);
        if (movedM < limitM && farthestM < MOTION_SETTINGS.stillExtentSds * errorSdM)
          for (let k = from; k < to; k++) still[k] = 1;
      }
    }
    from = to + 1;
  }
  return still;
};
