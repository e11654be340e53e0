import { hypotenuse } from '../units/hypotenuse.js';
import { knotsWith, type Section } from './section.js';
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
  readonly t: Float64Array;
  readonly tt: Float64Array;
  readonly e: Float64Array;
  readonly te: Float64Array;
  readonly n: Float64Array;
  readonly tn: Float64Array;
}

/** Running sums of the fixes, so that a line through any window costs the same. */
const sumsOf = (section: Section): Sums => {
  const knotOf = knotsWith(section.hasFix);
  const count = knotOf.length;
  const atS = new Float64Array(count);
  const t = new Float64Array(count + 1);
  const tt = new Float64Array(count + 1);
  const e = new Float64Array(count + 1);
  const te = new Float64Array(count + 1);
  const n = new Float64Array(count + 1);
  const tn = new Float64Array(count + 1);
  const firstS = section.atS[0]!;
  for (let i = 0; i < count; i++) {
    const k = knotOf[i]!;
    const sinceS = section.atS[k]! - firstS;
    const east = section.eastM[k]!;
    const north = section.northM[k]!;
    atS[i] = section.atS[k]!;
    t[i + 1] = t[i]! + sinceS;
    tt[i + 1] = tt[i]! + sinceS * sinceS;
    e[i + 1] = e[i]! + east;
    te[i + 1] = te[i]! + sinceS * east;
    n[i + 1] = n[i]! + north;
    tn[i + 1] = tn[i]! + sinceS * north;
  }
  return { atS, t, tt, e, te, n, tn };
};

/** Velocity east and north at each knot, m/s. */
interface Slopes {
  readonly east: Float64Array;
  readonly north: Float64Array;
}

/** Least-squares velocity of the fixes within half a window, s, of each knot. */
const slopes = (section: Section, sums: Sums, half: number): Slopes => {
  const east = new Float64Array(section.count);
  const north = new Float64Array(section.count);
  let low = 0;
  let high = 0;
  const last = sums.atS.length;
  for (let k = 0; k < section.count; k++) {
    const at = section.atS[k]!;
    while (low > 0 && sums.atS[low - 1]! >= at - half) low--;
    while (low < last && sums.atS[low]! < at - half) low++;
    while (high < last && sums.atS[high]! <= at + half) high++;
    while (high > 0 && sums.atS[high - 1]! > at + half) high--;
    let from = low;
    let to = high;
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
  let head = 0;
  let tail = 0;
  let next = 0;
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
  let low = 0;
  let high = 0;
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
  let low = 0;
  let high = 0;
  for (let k = 0; k < section.count; k++) {
    while (section.atS[low]! < section.atS[k]! - windowS / 2) low++;
    while (high + 1 < section.count && section.atS[high + 1]! <= section.atS[k]! + windowS / 2) high++;
    const spanS = section.atS[high]! - section.atS[low]!;
    if (!(spanS > 0)) continue;
    gain[k] = Math.abs(hypotenuse(east[high]!, north[high]!) - hypotenuse(east[low]!, north[low]!)) / spanS;
    turn[k] =
      Math.atan2(
        east[high]! * north[low]! - north[high]! * east[low]!,
        east[high]! * east[low]! + north[high]! * north[low]!,
      ) / spanS;
  }
  return { gain, turn };
};

/** Length of the window that shows the course to the noise wanted, s. */
const courseWindowS = (section: Section, fixCount: number, whiteSdM: number): number => {
  const spanS = section.atS[section.count - 1]! - section.atS[0]!;
  const intervalS = fixCount > 1 ? spanS / (fixCount - 1) : 1;
  const [shortestS, longestS] = MOTION_SETTINGS.courseWindowS;
  // Slope of a line through evenly spaced points: variance 12 sd² dt / window³.
  const wantedS = Math.cbrt((12 * whiteSdM ** 2 * intervalS) / MOTION_SETTINGS.courseNoiseMps ** 2);
  return Math.min(longestS, Math.max(shortestS, wantedS));
};

/** Lines through the longest window: a wandering error looks like speed through a short one. */
const calmSlopes = (section: Section, sums: Sums): Slopes =>
  slopes(section, sums, MOTION_SETTINGS.courseWindowS[1] / 2);

const lengths = ({ east, north }: Slopes): Float64Array => {
  const found = new Float64Array(east.length);
  for (let k = 0; k < found.length; k++) found[k] = hypotenuse(east[k]!, north[k]!);
  return found;
};

/** Velocity of a section by its fixes alone, through a long window; one value a knot, m/s. */
export const velocityByFixes = (section: Section): Slopes => calmSlopes(section, sumsOf(section));

/** Its length. */
export const speedByFixes = (section: Section): Float64Array => lengths(velocityByFixes(section));

/**
 * The course of a section from straight lines through its fixes; a longer window where the fixes are noisy or
 * the boat is slow.
 * @param whiteSdM sd of the white position error, m
 * @param useSpeed whether the logged speed may be believed
 */
export const courseOf = (section: Section, whiteSdM: number, useSpeed: boolean): Course => {
  const { count } = section;
  const sums = sumsOf(section);
  const windowS = courseWindowS(section, sums.atS.length, whiteSdM);
  const near = slopes(section, sums, windowS / 2);
  const calm = windowS === MOTION_SETTINGS.courseWindowS[1] ? near : calmSlopes(section, sums);
  const speedMps = windowSpeed(section, lengths(calm), useSpeed);
  const highest = greatestNear(section.atS, speedMps, MOTION_SETTINGS.slowMarginS);
  const slow = new Uint8Array(count);
  for (let k = 0; k < count; k++) slow[k] = highest[k]! < MOTION_SETTINGS.slowMps ? 1 : 0;
  const far = slopes(section, sums, MOTION_SETTINGS.slowWindowS / 2);
  const east = new Float64Array(count);
  const north = new Float64Array(count);
  let lastEast = 0;
  let lastNorth = 1;
  for (let k = 0; k < count; k++) {
    const source = slow[k] ? far : near;
    const length = hypotenuse(source.east[k]!, source.north[k]!);
    if (length > 1e-9) {
      lastEast = source.east[k]! / length;
      lastNorth = source.north[k]! / length;
    }
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
