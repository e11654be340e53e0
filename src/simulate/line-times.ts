import type { BoatTruth } from './truth.js';

/** A point of the true plane, m east and north of the origin. */
export type PlanePoint = readonly [eastM: number, northM: number];

/**
 * When the bow crossed a line, s on the true clock, every time in order.
 * @param from one end of the line; `to` the other; a crossing beyond the ends is none
 * @param bowOffsetM metres from the antenna forward to the bow ball
 */
export const lineTimes = (
  truth: BoatTruth,
  from: PlanePoint,
  to: PlanePoint,
  bowOffsetM: number,
): readonly number[] => {
  const [east, north] = [to[0] - from[0], to[1] - from[1]];
  const lengthM = Math.hypot(east, north);
  const seen = (i: number) => {
    const bowEast = truth.eastM[i]! + bowOffsetM * Math.sin(truth.headingRad[i]!) - from[0];
    const bowNorth = truth.northM[i]! + bowOffsetM * Math.cos(truth.headingRad[i]!) - from[1];
    return {
      off: (bowEast * north - bowNorth * east) / lengthM,
      along: (bowEast * east + bowNorth * north) / lengthM,
    };
  };
  const times: number[] = [];
  let before = seen(0);
  for (let i = 1; i < truth.eastM.length; i++) {
    const now = seen(i);
    if (before.off < 0 !== now.off < 0) {
      const place = before.off / (before.off - now.off);
      const along = before.along + place * (now.along - before.along);
      if (along >= 0 && along <= lengthM) times.push((i - 1 + place) * truth.stepS);
    }
    before = now;
  }
  return times;
};
