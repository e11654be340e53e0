import { metresPerDegree } from '../geodesy/index.js';
import type { Interval } from '../motion/index.js';
import type { Channel } from '../recording/index.js';
import { lastAtMost } from '../units/last-at-most.js';

/** Where a log went, at even steps, without smoothing: to know where to look, not to measure by. */
export interface CoarsePath {
  readonly stepS: number;
  /** Metres made in each step, the first from 0 s on; 0 where positions are missing. */
  readonly stepM: Float64Array;
}

/** Longitudes across the date line are near each other. */
const acrossDeg = (deg: number): number =>
  deg > 180 || deg < -180 ? deg - 360 * Math.round(deg / 360) : deg;

/** The way of a track in steps of some seconds. */
export const coarsePath = ({ atS, columns, gaps }: Channel, stepS: number): CoarsePath => {
  const [lat, lon] = columns as [Float64Array, Float64Array];
  const count = Math.floor(atS[atS.length - 1]! / stepS);
  const scale = metresPerDegree(lat[0]!);
  const stepM = new Float64Array(count);
  let gap = 0;
  let before = -1;
  for (let k = 0; k <= count; k++) {
    while (gap < gaps.length && gaps[gap]!.toS <= (k - 1) * stepS) gap++;
    const broken = gap < gaps.length && gaps[gap]!.fromS < k * stepS;
    const here = lastAtMost(atS, k * stepS);
    if (k > 0 && before >= 0 && !broken)
      stepM[k - 1] = Math.hypot(
        (lat[here]! - lat[before]!) * scale.northM,
        acrossDeg(lon[here]! - lon[before]!) * scale.eastM,
      );
    before = here;
  }
  return { stepS, stepM };
};

/** Stretches in which every step is faster than a limit. */
export const movingStretches = ({ stepS, stepM }: CoarsePath, leastMps: number): Interval[] => {
  const found: { fromS: number; toS: number }[] = [];
  stepM.forEach((metres, k) => {
    if (metres < leastMps * stepS) return;
    const last = found.at(-1);
    if (last !== undefined && last.toS === k * stepS) last.toS += stepS;
    else found.push({ fromS: k * stepS, toS: (k + 1) * stepS });
  });
  return found;
};

/** True where no fix lies farther from the one before than a boat gets, beyond some error. */
export const isWithoutJumps = (
  { atS, columns }: Channel,
  { fastestMps, errorM }: { readonly fastestMps: number; readonly errorM: number },
): boolean => {
  const [lat, lon] = columns as [Float64Array, Float64Array];
  const { northM, eastM } = metresPerDegree(lat[0]!);
  for (let i = 1; i < atS.length; i++) {
    const north = (lat[i]! - lat[i - 1]!) * northM;
    const east = acrossDeg(lon[i]! - lon[i - 1]!) * eastM;
    const most = errorM + fastestMps * (atS[i]! - atS[i - 1]!);
    if (north * north + east * east > most * most) return false;
  }
  return true;
};
