import { hypotenuse } from '../units/hypotenuse.js';
import { knotsWith, type Section } from './section.js';
import { MOTION_SETTINGS } from './settings.js';

const medianOfFive = new Float64Array(5);
const middle = (values: Float64Array, knots: Int32Array, centre: number): number => {
  for (let j = 0; j < 5; j++) medianOfFive[j] = values[knots[centre - 2 + j]!]!;
  medianOfFive.sort();
  return medianOfFive[2]!;
};

/**
 * Fixes that stand far from the median of their five neighbours, as one or two stray fixes do; longer
 * excursions are left to the filter's gate.
 * @returns 1 where a knot's fix is an outlier
 */
export const outliersOf = (section: Section, whiteSdM: number): Uint8Array => {
  const taken = new Uint8Array(section.count);
  const knots = knotsWith(section.hasFix);
  const limitM = Math.max(MOTION_SETTINGS.outlierM, MOTION_SETTINGS.outlierSds * whiteSdM);
  for (let i = 2; i < knots.length - 2; i++) {
    const k = knots[i]!;
    const spanS = section.atS[knots[i + 2]!]! - section.atS[knots[i - 2]!]!;
    // In a turn or with uneven steps the median is not the middle: as much as the hull runs in a quarter of it.
    const allowedM = limitM + (MOTION_SETTINGS.fastestMps * spanS) / 8;
    const offM = hypotenuse(
      section.eastM[k]! - middle(section.eastM, knots, i),
      section.northM[k]! - middle(section.northM, knots, i),
    );
    if (offM > allowedM) taken[k] = 1;
  }
  return taken;
};
