import { stepBetween } from '../geodesy/index.js';
import type { Interval } from '../motion/index.js';
import type { Outing } from '../outing/index.js';
import { firstAtLeast } from '../units/first-at-least.js';

/** What the receiver wrote about a moment, laid along the boat's course: not smoothed, so that a kink stays one. */
export interface AlongFixes {
  /** Moments of the fixes, s, and their way along the course from the first, m. */
  readonly atS: Float64Array;
  readonly alongM: Float64Array;
  /** Fixes that each is the mean of. */
  readonly meanOf: number;
  /** Moments and values of a logged speed that the track uses, s and m/s; empty where there is none. */
  readonly speedAtS: Float64Array;
  readonly speedMps: Float64Array;
}

/** How fixes are laid along the course. */
export const ALONG_SETTINGS = Object.freeze({
  /** Fixes closer in time are averaged over so long, s; 0.5 to 1: half a stroke. */
  blockS: 1,
  /** Below this speed the course is that of the nearest moment above it, m/s; 1 to 2. */
  wayMps: 1.5,
  /** A fix so far from the smoothed track is stray, m and in white sd; 4 to 8. */
  strayM: 4,
  straySds: 5,
});

/** Unit vector of the course at each moment: where the boat is slow, that of the nearest moment at way. */
const courses = (outing: Outing, atS: readonly number[]): { east: number; north: number }[] | null => {
  const track = outing.track!;
  const known = atS.map((at) => {
    if ((track.speedAt(at) ?? 0) < ALONG_SETTINGS.wayMps) return null;
    const heading = track.headingAt(at);
    if (heading === null) return null;
    const radians = (heading * Math.PI) / 180;
    return { east: Math.sin(radians), north: Math.cos(radians) };
  });
  const at = known.flatMap((course, i) => (course === null ? [] : [i]));
  if (at.length === 0) return null;
  let near = 0;
  return known.map((course, i) => {
    while (near + 1 < at.length && Math.abs(at[near + 1]! - i) <= Math.abs(at[near]! - i)) near++;
    return course ?? known[at[near]!]!;
  });
};

/**
 * The fixes and the logged speeds of a stretch, along the course.
 * @returns null where the track does not hold the stretch whole, or the boat is nowhere at way in it
 */
export const alongFixes = (outing: Outing, within: Interval): AlongFixes | null => {
  const { track, recording } = outing;
  const position = recording.channels.position;
  if (track === null || position === undefined) return null;
  if (track.outages.some((gap) => gap.fromS < within.toS && gap.toS > within.fromS)) return null;
  const [lat, lon] = position.columns as [Float64Array, Float64Array];
  const { strayM, straySds, blockS } = ALONG_SETTINGS;
  const limitM = strayM + straySds * track.errorModel.whiteSdM;
  const first = firstAtLeast(position.atS, within.fromS);
  const times: number[] = [];
  const east: number[] = [];
  const north: number[] = [];
  let origin: { latDeg: number; lonDeg: number } | null = null;
  let block = { fromS: Number.NaN, count: 0, t: 0, e: 0, n: 0 };
  let counts = 0;
  const close = () => {
    if (block.count === 0) return;
    times.push(block.t / block.count);
    east.push(block.e / block.count);
    north.push(block.n / block.count);
    counts += block.count;
  };
  for (let i = first; i < position.atS.length && position.atS[i]! <= within.toS; i++) {
    const fix = { latDeg: lat[i]!, lonDeg: lon[i]! };
    const place = track.placeAt(position.atS[i]!);
    if (place === null) continue;
    const off = stepBetween(place, fix);
    if (Math.hypot(off.eastM, off.northM) > limitM) continue;
    origin ??= fix;
    const way = stepBetween(origin, fix);
    if (!(position.atS[i]! - block.fromS < blockS - 1e-6)) {
      close();
      block = { fromS: position.atS[i]!, count: 0, t: 0, e: 0, n: 0 };
    }
    block.count++;
    block.t += position.atS[i]!;
    block.e += way.eastM;
    block.n += way.northM;
  }
  close();
  const course = times.length < 3 ? null : courses(outing, times);
  if (course === null) return null;
  const alongM = new Float64Array(times.length);
  for (let i = 1; i < times.length; i++) {
    const [a, b] = [course[i - 1]!, course[i]!];
    alongM[i] =
      alongM[i - 1]! +
      ((east[i]! - east[i - 1]!) * (a.east + b.east) + (north[i]! - north[i - 1]!) * (a.north + b.north)) / 2;
  }
  const speed = track.errorModel.speedSdMps === null ? undefined : recording.channels.speed;
  const none = new Float64Array(0);
  const cut = (values: Float64Array) =>
    values.subarray(firstAtLeast(speed!.atS, within.fromS), firstAtLeast(speed!.atS, within.toS));
  return {
    atS: Float64Array.from(times),
    alongM,
    meanOf: counts / times.length,
    speedAtS: speed === undefined ? none : cut(speed.atS),
    speedMps: speed === undefined ? none : cut(speed.columns[0]!),
  };
};
