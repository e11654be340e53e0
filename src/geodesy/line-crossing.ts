import type { Place } from './place.js';
import { type Step, stepBetween } from './step.js';

/** Where a place stands to a line across the water, m. */
export interface LineOffset {
  /** Distance from the line (made endless): above 0 on the right of someone who looks from its first end to its second. */
  readonly acrossM: number;
  /** From the line's first end towards its second. */
  readonly alongM: number;
}

/** A line across the water, ready to be asked for many places. */
export interface WaterLine {
  readonly lengthM: number;
  /** Unit vector from the first end to the second, east and north. */
  readonly along: Step;
  /** Unit vector square to it, towards its right. */
  readonly right: Step;
  readonly offsetOf: (place: Place) => LineOffset;
}

/**
 * A line between two places. Plane at the line's own latitude: for lines and distances of up to a few
 * kilometres, where it is off by under a millimetre near the line.
 * @returns null where both ends are the same place
 */
export const waterLine = (from: Place, to: Place): WaterLine | null => {
  const step = stepBetween(from, to);
  const lengthM = Math.hypot(step.eastM, step.northM);
  if (!(lengthM > 0)) return null;
  const along = { eastM: step.eastM / lengthM, northM: step.northM / lengthM };
  const right = { eastM: along.northM, northM: -along.eastM };
  return {
    lengthM,
    along,
    right,
    offsetOf: (place) => {
      const step = stepBetween(from, place);
      return {
        acrossM: step.eastM * right.eastM + step.northM * right.northM,
        alongM: step.eastM * along.eastM + step.northM * along.northM,
      };
    },
  };
};

/**
 * When a distance that runs evenly from `before` to `after` is 0.
 * @param beforeM at `beforeS`, m
 * @param afterM at `afterS`, m, of the other sign or 0
 * @example crossingTime(-1.2, 3.3, 10, 11) // 10.26667
 */
export const crossingTime = (beforeM: number, afterM: number, beforeS: number, afterS: number): number =>
  beforeM === afterM ? beforeS : beforeS + ((0 - beforeM) / (afterM - beforeM)) * (afterS - beforeS);
