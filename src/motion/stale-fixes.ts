import { metresPerDegree } from '../geodesy/index.js';
import type { Channel } from '../recording/index.js';
import { quantile } from '../signal/index.js';
import { hypotenuse } from '../units/hypotenuse.js';
import { unbridgedGaps } from './outages.js';

/** When fixes are apart from the others. */
export const STALE_SETTINGS = Object.freeze({
  /** Two fixes in a row may be apart this far beyond what the boat makes, m; 15 to 25: white errors are below 5. */
  apartM: 20,
  /** And by this share of the speed that nine steps of ten stay below, and this much more, m/s. */
  speedQuantile: 0.9,
  speedShare: 1.5,
  speedMoreMps: 1,
  /** A run of fixes apart from those on both sides is believed if it lasts longer than twice this, s; 10 to 60: a
   * receiver shows its last place for some seconds after it wakes. */
  believedS: 20,
  /** And has more fixes than this. */
  believedFixes: 4,
  /** A new run begins after so many usual steps without a fix; 1.5 to 3. */
  pauseSteps: 2,
  /** Runs looked back at for one to go on from. */
  lookBack: 50,
});

/** Steps looked at to know the usual one. */
const MOST_STEPS = 2000;

/** Fixes in a row that a boat can have made, by their indices, both included. */
interface Run {
  readonly from: number;
  readonly to: number;
}

const wrapped = (deg: number): number => (deg > 180 ? deg - 360 : deg < -180 ? deg + 360 : deg);

/** Latitudes nearer than this share the length of a degree: it differs by less than 1 % from 0 to 70°. */
const SAME_SCALE_DEG = 0.1;

/** Distance between two fixes, m: on a plane, so it is rough where they are far apart. */
const distancesOf = ({ columns }: Channel): ((i: number, j: number) => number) => {
  const [lat, lon] = columns as [Float64Array, Float64Array];
  let scaledDeg = lat[0]!;
  let scale = metresPerDegree(scaledDeg);
  return (i, j) => {
    const middleDeg = (lat[i]! + lat[j]!) / 2;
    if (Math.abs(middleDeg - scaledDeg) > SAME_SCALE_DEG) {
      scaledDeg = middleDeg;
      scale = metresPerDegree(middleDeg);
    }
    return hypotenuse((lat[j]! - lat[i]!) * scale.northM, wrapped(lon[j]! - lon[i]!) * scale.eastM);
  };
};

/** Every so manieth step between fixes: its length, s, and its speed, m/s. */
const stepsOf = ({ atS }: Channel, apartM: (i: number, j: number) => number) => {
  const stride = Math.max(1, Math.floor(atS.length / MOST_STEPS));
  const lengthsS: number[] = [];
  const speedsMps: number[] = [];
  for (let i = stride; i < atS.length; i += stride) {
    const stepS = atS[i]! - atS[i - 1]!;
    lengthsS.push(stepS);
    speedsMps.push(apartM(i - 1, i) / stepS);
  }
  return { lengthsS, speedsMps };
};

/**
 * Fixes that most others speak against: those of a receiver that shows an old place when it wakes, and strays. Fixes
 * in a row that a boat can have made are a run; a new one begins after every gap. Of all ways to go from run to run
 * the one that keeps most fixes is taken, where a step that no boat makes costs as many fixes as are made in some
 * seconds: a run that is apart for longer is a jump of the receiver, and stays.
 * @returns 1 where a fix is left out; null where none is
 */
export const staleFixes = (position: Channel): Uint8Array | null => {
  const { apartM: slackM, pauseSteps, believedS, believedFixes, lookBack } = STALE_SETTINGS;
  const { speedQuantile, speedShare, speedMoreMps } = STALE_SETTINGS;
  const { atS } = position;
  const count = atS.length;
  const apartM = distancesOf(position);
  const { lengthsS, speedsMps } = stepsOf(position, apartM);
  const stepS = quantile(lengthsS, 0.5);
  const mps = speedMoreMps + speedShare * quantile(speedsMps, speedQuantile);
  const reached = (i: number, j: number): boolean => apartM(i, j) <= slackM + mps * (atS[j]! - atS[i]!);
  const runs: Run[] = [];
  let from = 0;
  let strayed = false;
  for (let i = 1; i < count; i++) {
    const apart = !reached(i - 1, i);
    strayed ||= apart;
    if (!apart && atS[i]! - atS[i - 1]! < pauseSteps * stepS) continue;
    runs.push({ from, to: i - 1 });
    from = i;
  }
  if (!strayed) return null;
  runs.push({ from, to: count - 1 });

  const borders = unbridgedGaps(position);
  const isJoined = (earlier: Run, later: Run): boolean =>
    reached(earlier.to, later.from) ||
    borders.some(({ fromS, toS }) => fromS >= atS[earlier.to]! && toS <= atS[later.from]!);
  const costFixes = Math.min(count / 4, Math.max(believedFixes, believedS / stepS));
  const kept = new Float64Array(runs.length);
  const before = new Int32Array(runs.length).fill(-1);
  for (let r = 0; r < runs.length; r++) {
    let most = 0;
    for (let q = r - 1; q >= Math.max(0, r - lookBack); q--) {
      const sum = kept[q]! - (isJoined(runs[q]!, runs[r]!) ? 0 : costFixes);
      if (sum > most) {
        most = sum;
        before[r] = q;
      }
    }
    kept[r] = most + runs[r]!.to - runs[r]!.from + 1;
  }
  const left = new Uint8Array(count).fill(1);
  let last = kept.indexOf(Math.max(...kept));
  while (last >= 0) {
    left.fill(0, runs[last]!.from, runs[last]!.to + 1);
    last = before[last]!;
  }
  return left.includes(1) ? left : null;
};
