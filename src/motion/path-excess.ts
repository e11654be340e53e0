import { hypotenuse } from '../units/hypotenuse.js';
import { velocityByFixes } from './course.js';
import type { Section } from './section.js';
import { MOTION_SETTINGS } from './settings.js';

/**
 * How far ahead of the fixes the logged speed, summed, has run: what both err by, free of how the boat moved. In
 * runs at speed; what stands at the beginning of a run is arbitrary.
 */
export interface PathExcess {
  readonly atS: Float64Array;
  readonly metres: Float64Array;
  /** Mean of the logged speed since the value before, m/s; arbitrary where a run begins. */
  readonly speedMps: Float64Array;
  /** Fixes that each value is the mean of. */
  readonly fixCount: Float64Array;
  /** 1 where a run begins. */
  readonly begins: Uint8Array;
}

/** Sums over the fixes of one mean. */
interface Sums {
  fromS: number;
  atS: number;
  east: number;
  north: number;
  speedM: number;
  fixes: number;
}

const emptied = (fromS: number): Sums => ({ fromS, atS: 0, east: 0, north: 0, speedM: 0, fixes: 0 });

/** The logged speed summed from the first sample on, m, at each knot. */
const summedSpeed = ({ count, atS, hasSpeed, speedMps }: Section): Float64Array => {
  const summed = new Float64Array(count);
  let metres = 0;
  let last = -1;
  for (let k = 0; k < count; k++) {
    if (hasSpeed[k]) {
      if (last >= 0) metres += ((speedMps[k]! + speedMps[last]!) / 2) * (atS[k]! - atS[last]!);
      last = k;
    }
    summed[k] = metres;
  }
  return summed;
};

/**
 * The excess of a section, in means over some seconds.
 * @param meanS length of a mean, s
 */
export const pathExcess = (section: Section, meanS: number): PathExcess => {
  const { count, atS, eastM, northM, hasFix } = section;
  const velocity = velocityByFixes(section);
  const speedM = summedSpeed(section);
  const [times, metres, fixCount, begins]: [number[], number[], number[], number[]] = [[], [], [], []];
  const speeds: number[] = [];
  let sums = emptied(atS[0]!);
  let last: { readonly east: number; readonly north: number; readonly speedM: number } | null = null;
  let excessM = 0;
  for (let k = 0; k < count; k++) {
    if (!hasFix[k]) continue;
    const mps = hypotenuse(velocity.east[k]!, velocity.north[k]!);
    if (mps < MOTION_SETTINGS.movingMps) {
      last = null;
      sums = emptied(atS[k]!);
      continue;
    }
    // Even times differ in their last digits.
    if (atS[k]! - sums.fromS > meanS - 1e-6 && sums.fixes > 0) {
      const { fixes } = sums;
      const here = { east: sums.east / fixes, north: sums.north / fixes, speedM: sums.speedM / fixes };
      if (last !== null) {
        const east = velocity.east[k]! * (here.east - last.east);
        const north = velocity.north[k]! * (here.north - last.north);
        excessM += here.speedM - last.speedM - (east + north) / mps;
      }
      const atMean = sums.atS / fixes;
      speeds.push(last === null ? 0 : (here.speedM - last.speedM) / (atMean - times.at(-1)!));
      times.push(atMean);
      metres.push(excessM);
      fixCount.push(fixes);
      begins.push(last === null ? 1 : 0);
      last = here;
      sums = emptied(atS[k]!);
    }
    sums.atS += atS[k]!;
    sums.east += eastM[k]!;
    sums.north += northM[k]!;
    sums.speedM += speedM[k]!;
    sums.fixes++;
  }
  return {
    atS: Float64Array.from(times),
    metres: Float64Array.from(metres),
    speedMps: Float64Array.from(speeds),
    fixCount: Float64Array.from(fixCount),
    begins: Uint8Array.from(begins),
  };
};
