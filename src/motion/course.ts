import type { Section } from './section.js';
import { MOTION_SETTINGS } from './settings.js';

/** Where a boat is heading, roughly, and how it moves: what the filter is linearised about. One value a knot. */
export interface Course {
  /** Unit vector of the course, east and north. */
  readonly east: Float64Array;
  readonly north: Float64Array;
  /** Speed as seen through a window, m/s. */
  readonly speedMps: Float64Array;
  /** 1 where the boat does not row. */
  readonly slow: Uint8Array;
  /** Greatest change of speed near by, m/s². */
  readonly gainMps2: Float64Array;
  /** Turning, rad/s. */
  readonly turnRadps: Float64Array;
}

interface Sums {
  readonly atS: Float64Array;
  readonly knotOf: Int32Array;
  readonly t: Float64Array;
  readonly tt: Float64Array;
  readonly e: Float64Array;
  readonly te: Float64Array;
  readonly n: Float64Array;
  readonly tn: Float64Array;
}

/** Running sums of the fixes, so that a line through any window costs the same. */
const sumsOf = (section: Section): Sums => {
  const knotOf = Int32Array.from(section.hasFix.keys()).filter((k) => section.hasFix[k] === 1);
  const make = () => new Float64Array(knotOf.length + 1);
  const sums = { t: make(), tt: make(), e: make(), te: make(), n: make(), tn: make() };
  const atS = new Float64Array(knotOf.length);
  for (let i = 0; i < knotOf.length; i++) {
    const k = knotOf[i]!;
    const t = section.atS[k]! - section.atS[0]!;
    const [e, n] = [section.eastM[k]!, section.northM[k]!];
    atS[i] = section.atS[k]!;
    sums.t[i + 1] = sums.t[i]! + t;
    sums.tt[i + 1] = sums.tt[i]! + t * t;
    sums.e[i + 1] = sums.e[i]! + e;
    sums.te[i + 1] = sums.te[i]! + t * e;
    sums.n[i + 1] = sums.n[i]! + n;
    sums.tn[i + 1] = sums.tn[i]! + t * n;
  }
  return { atS, knotOf, ...sums };
};

/** Least-squares velocity of the fixes within half a window of each knot, m/s. */
const slopes = (section: Section, sums: Sums, halfOf: (knot: number) => number) => {
  const east = new Float64Array(section.count);
  const north = new Float64Array(section.count);
  let [low, high] = [0, 0];
  const last = sums.atS.length;
  for (let k = 0; k < section.count; k++) {
    const at = section.atS[k]!;
    const half = halfOf(k);
    while (low > 0 && sums.atS[low - 1]! >= at - half) low--;
    while (low < last && sums.atS[low]! < at - half) low++;
    while (high < last && sums.atS[high]! <= at + half) high++;
    while (high > 0 && sums.atS[high - 1]! > at + half) high--;
    let [from, to] = [low, high];
    // At least three fixes, so that a sparse log has a course too.
    while (to - from < 3 && (from > 0 || to < last)) {
      if (from > 0) from--;
      if (to < last && to - from < 3) to++;
    }
    const count = to - from;
    if (count < 2) continue;
    const t = sums.t[to]! - sums.t[from]!;
    const square = count * (sums.tt[to]! - sums.tt[from]!) - t * t;
    if (!(square > 0)) continue;
    east[k] = (count * (sums.te[to]! - sums.te[from]!) - t * (sums.e[to]! - sums.e[from]!)) / square;
    north[k] = (count * (sums.tn[to]! - sums.tn[from]!) - t * (sums.n[to]! - sums.n[from]!)) / square;
  }
  return { east, north };
};

/** Greatest of a series within a margin of time to either side. */
const greatestNear = (atS: Float64Array, values: Float64Array, marginS: number): Float64Array => {
  const greatest = new Float64Array(values.length);
  const queue = new Int32Array(values.length);
  let [head, tail, next] = [0, 0, 0];
  for (let k = 0; k < values.length; k++) {
    while (next < values.length && atS[next]! <= atS[k]! + marginS) {
      while (tail > head && values[queue[tail - 1]!]! <= values[next]!) tail--;
      queue[tail++] = next++;
    }
    while (atS[queue[head]!]! < atS[k]! - marginS) head++;
    greatest[k] = values[queue[head]!]!;
  }
  return greatest;
};

/** Mean of the logged speed within a second to either side; the slope where none is logged. */
const windowSpeed = (section: Section, slope: Float64Array, useSpeed: boolean): Float64Array => {
  if (!useSpeed) return slope;
  const sums = new Float64Array(section.count + 1);
  const counts = new Int32Array(section.count + 1);
  for (let k = 0; k < section.count; k++) {
    sums[k + 1] = sums[k]! + (section.hasSpeed[k] ? section.speedMps[k]! : 0);
    counts[k + 1] = counts[k]! + section.hasSpeed[k]!;
  }
  const speed = new Float64Array(section.count);
  let [low, high] = [0, 0];
  for (let k = 0; k < section.count; k++) {
    while (section.atS[low]! < section.atS[k]! - 1) low++;
    while (high < section.count && section.atS[high]! <= section.atS[k]! + 1) high++;
    const count = counts[high]! - counts[low]!;
    speed[k] = count > 0 ? (sums[high]! - sums[low]!) / count : slope[k]!;
  }
  return speed;
};

/** Change of speed, m/s², and of direction, rad/s, from half a window before each knot to half a window after. */
const changesOf = (section: Section, east: Float64Array, north: Float64Array, windowS: number) => {
  const gain = new Float64Array(section.count);
  const turn = new Float64Array(section.count);
  let [low, high] = [0, 0];
  for (let k = 0; k < section.count; k++) {
    while (section.atS[low]! < section.atS[k]! - windowS / 2) low++;
    while (high + 1 < section.count && section.atS[high + 1]! <= section.atS[k]! + windowS / 2) high++;
    const spanS = section.atS[high]! - section.atS[low]!;
    if (!(spanS > 0)) continue;
    gain[k] = Math.abs(Math.hypot(east[high]!, north[high]!) - Math.hypot(east[low]!, north[low]!)) / spanS;
    turn[k] =
      Math.atan2(
        east[high]! * north[low]! - north[high]! * east[low]!,
        east[high]! * east[low]! + north[high]! * north[low]!,
      ) / spanS;
  }
  return { gain, turn };
};

/**
 * The course of a section from straight lines through its fixes; a longer window where the fixes are noisy or
 * the boat is slow.
 * @param whiteSdM sd of the white position error, m
 * @param useSpeed whether the logged speed may be believed
 */
export const courseOf = (section: Section, whiteSdM: number, useSpeed: boolean): Course => {
  const sums = sumsOf(section);
  const spanS = section.atS[section.count - 1]! - section.atS[0]!;
  const intervalS = sums.atS.length > 1 ? spanS / (sums.atS.length - 1) : 1;
  const [shortestS, longestS] = MOTION_SETTINGS.courseWindowS;
  // Slope of a line through evenly spaced points: variance 12 sd² dt / window³.
  const wantedS = Math.cbrt((12 * whiteSdM ** 2 * intervalS) / MOTION_SETTINGS.courseNoiseMps ** 2);
  const windowS = Math.min(longestS, Math.max(shortestS, wantedS));
  const near = slopes(section, sums, () => windowS / 2);
  // A wandering error looks like speed through a short window, so slowness is judged through the longest.
  const calm = windowS === longestS ? near : slopes(section, sums, () => longestS / 2);
  const slope = new Float64Array(section.count);
  for (let k = 0; k < section.count; k++) slope[k] = Math.hypot(calm.east[k]!, calm.north[k]!);
  const speedMps = windowSpeed(section, slope, useSpeed);
  const highest = greatestNear(section.atS, speedMps, MOTION_SETTINGS.slowMarginS);
  const slow = new Uint8Array(section.count);
  for (let k = 0; k < section.count; k++) slow[k] = highest[k]! < MOTION_SETTINGS.slowMps ? 1 : 0;
  const far = slopes(section, sums, () => MOTION_SETTINGS.slowWindowS / 2);
  const east = new Float64Array(section.count);
  const north = new Float64Array(section.count);
  let [lastEast, lastNorth] = [0, 1];
  for (let k = 0; k < section.count; k++) {
    const source = slow[k] ? far : near;
    const length = Math.hypot(source.east[k]!, source.north[k]!);
    if (length > 1e-9) [lastEast, lastNorth] = [source.east[k]! / length, source.north[k]! / length];
    east[k] = lastEast;
    north[k] = lastNorth;
  }
  const { gain, turn } = changesOf(section, near.east, near.north, windowS);
  return {
    east,
    north,
    speedMps,
    slow,
    gainMps2: greatestNear(section.atS, gain, windowS / 2),
    turnRadps: turn,
  };
};
