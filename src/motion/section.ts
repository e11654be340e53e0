import { metresPerDegree, type Place } from '../geodesy/index.js';
import type { Channel } from '../recording/index.js';
import { firstAtLeast } from '../units/first-at-least.js';
import { unbridgedGaps } from './outages.js';
import { MOTION_SETTINGS } from './settings.js';
import type { Interval } from './track.js';

/**
 * An unbroken stretch of a log on one time base: positions laid out step by step in metres from its first fix,
 * and logged speed. A knot may hold either or both.
 */
export interface Section {
  readonly count: number;
  readonly atS: Float64Array;
  /** 1 where a knot has a fix that counts. */
  readonly hasFix: Uint8Array;
  readonly hasSpeed: Uint8Array;
  /** 1 where the step from a knot lies in a gap that is bridged. */
  readonly bridged: Uint8Array;
  /** Metres from the first fix that counts; of knots without one, those of the last before, or of the first. */
  readonly eastM: Float64Array;
  readonly northM: Float64Array;
  readonly latDeg: Float64Array;
  readonly lonDeg: Float64Array;
  readonly speedMps: Float64Array;
}

const wrapped = (deg: number): number => (deg > 180 ? deg - 360 : deg < -180 ? deg + 360 : deg);

/** Times at which gaps between two times are stepped through: those in which no speed is logged either. */
const bridgeSteps = ({ gaps }: Channel, speed: Channel | null, fromS: number, toS: number): number[] => {
  const { bridgeStepS, sameInstantS } = MOTION_SETTINGS;
  const steps: number[] = [];
  for (const gap of gaps) {
    if (gap.fromS < fromS || gap.toS > toS) continue;
    const next = speed === null ? 0 : firstAtLeast(speed.atS, gap.fromS + sameInstantS);
    if (speed !== null && next < speed.atS.length && speed.atS[next]! < gap.toS - sameInstantS) continue;
    const count = Math.floor((gap.toS - gap.fromS) / bridgeStepS);
    for (let i = 1; i < count; i++) steps.push(gap.fromS + (i * (gap.toS - gap.fromS)) / count);
  }
  return steps;
};

const sectionOf = (
  position: Channel,
  speed: Channel | null,
  stale: Uint8Array | null,
  first: number,
  last: number,
): Section => {
  const fromS = position.atS[first]!;
  const toS = position.atS[last]!;
  const speedTimes = speed?.atS ?? new Float64Array(0);
  let s = 0;
  while (s < speedTimes.length && speedTimes[s]! < fromS - MOTION_SETTINGS.sameInstantS) s++;
  const steps = bridgeSteps(position, speed, fromS, toS);
  const most = last - first + 1 + speedTimes.length - s + steps.length;
  const atS = new Float64Array(most);
  const hasFix = new Uint8Array(most);
  const hasSpeed = new Uint8Array(most);
  const bridged = new Uint8Array(most);
  const eastM = new Float64Array(most);
  const northM = new Float64Array(most);
  const latDeg = new Float64Array(most);
  const lonDeg = new Float64Array(most);
  const speedMps = new Float64Array(most);
  const [lats, lons] = [position.columns[0]!, position.columns[1]!];
  let east = 0;
  let north = 0;
  let p = first;
  let k = 0;
  // The fix to which others are relative: the last good one, before the first the first.
  let good = first;
  while (good < last && stale?.[good]) good++;
  let b = 0;
  while (p <= last || (s < speedTimes.length && speedTimes[s]! <= toS)) {
    const fixAt = p <= last ? position.atS[p]! : Number.POSITIVE_INFINITY;
    const speedAt = s < speedTimes.length ? speedTimes[s]! : Number.POSITIVE_INFINITY;
    if (b < steps.length && steps[b]! < Math.min(fixAt, speedAt)) {
      atS[k] = steps[b++]!;
      bridged[k] = 1;
      bridged[k - 1] = 1;
    } else if (fixAt <= speedAt + MOTION_SETTINGS.sameInstantS) {
      if (!stale?.[p]) {
        const scale = metresPerDegree((lats[good]! + lats[p]!) / 2);
        east += wrapped(lons[p]! - lons[good]!) * scale.eastM;
        north += (lats[p]! - lats[good]!) * scale.northM;
        hasFix[k] = 1;
        good = p;
      }
      atS[k] = fixAt;
      p++;
      if (speedAt <= fixAt + MOTION_SETTINGS.sameInstantS) {
        hasSpeed[k] = 1;
        speedMps[k] = speed!.columns[0]![s]!;
        s++;
      }
    } else {
      atS[k] = speedAt;
      hasSpeed[k] = 1;
      speedMps[k] = speed!.columns[0]![s]!;
      s++;
    }
    eastM[k] = east;
    northM[k] = north;
    latDeg[k] = lats[good]!;
    lonDeg[k] = lons[good]!;
    k++;
  }
  const cut = <Values extends Float64Array | Uint8Array>(values: Values) => values.subarray(0, k) as Values;
  return {
    count: k,
    atS: cut(atS),
    hasFix: cut(hasFix),
    hasSpeed: cut(hasSpeed),
    bridged: cut(bridged),
    eastM: cut(eastM),
    northM: cut(northM),
    latDeg: cut(latDeg),
    lonDeg: cut(lonDeg),
    speedMps: cut(speedMps),
  };
};

/** The place of a knot, or of the fix before it. */
export const placeOfKnot = (section: Section, knot: number): Place => ({
  latDeg: section.latDeg[knot]!,
  lonDeg: section.lonDeg[knot]!,
});

/**
 * The stretches of a log without a border of its own or a long gap inside, and the outages between them.
 * @param stale 1 where a fix does not count; null where all do
 */
export const sectionsOf = (
  position: Channel,
  speed: Channel | null,
  stale: Uint8Array | null,
): { readonly sections: readonly Section[]; readonly outages: readonly Interval[] } => {
  const sections: Section[] = [];
  const outages: Interval[] = [];
  let first = 0;
  for (const gap of unbridgedGaps(position)) {
    let last = first;
    while (last + 1 < position.atS.length && position.atS[last + 1]! <= gap.fromS) last++;
    sections.push(sectionOf(position, speed, stale, first, last));
    outages.push({ fromS: gap.fromS, toS: gap.toS });
    first = last + 1;
  }
  if (first < position.atS.length)
    sections.push(sectionOf(position, speed, stale, first, position.atS.length - 1));
  return { sections, outages };
};

/** The section without the fixes that a mask takes out (1: taken out). */
export const withoutFixes = (section: Section, taken: Uint8Array): Section => {
  const hasFix = section.hasFix.slice();
  for (let k = 0; k < section.count; k++) if (taken[k]) hasFix[k] = 0;
  return { ...section, hasFix };
};

/** The knots that a mask names (1: named), in order. */
export const knotsWith = (mask: Uint8Array): Int32Array => {
  const knots = new Int32Array(mask.length);
  let count = 0;
  for (let k = 0; k < mask.length; k++) if (mask[k] === 1) knots[count++] = k;
  return knots.subarray(0, count);
};
