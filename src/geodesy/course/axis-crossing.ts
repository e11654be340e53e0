import type { Place } from '../place.js';
import type { Polyline } from '../polyline.js';
import { type Step, stepBetween } from '../step.js';

/** Where a line meets the axis of a course. */
export interface AxisCrossing {
  /** Along the axis, m. */
  readonly alongM: number;
  /** Unit vector of the axis there. */
  readonly direction: Step;
}

/** Every place at which the line between two places meets an axis, in order along it. */
export const axisCrossings = (axis: Polyline, from: Place, to: Place): readonly AxisCrossing[] => {
  const line = stepBetween(from, to);
  const found: AxisCrossing[] = [];
  for (let leg = 0; leg + 1 < axis.vertices.length; leg++) {
    const begin = stepBetween(from, axis.vertices[leg]!);
    const step = stepBetween(axis.vertices[leg]!, axis.vertices[leg + 1]!);
    const cross = step.eastM * line.northM - step.northM * line.eastM;
    if (cross === 0) continue;
    // begin + share * step = place * line
    const share = (begin.northM * line.eastM - begin.eastM * line.northM) / cross;
    const place = (begin.northM * step.eastM - begin.eastM * step.northM) / cross;
    const last = leg + 2 === axis.vertices.length;
    if (share < 0 || share > 1 || (share === 1 && !last) || place < 0 || place > 1) continue;
    const lengthM = Math.hypot(step.eastM, step.northM);
    found.push({
      alongM: axis.alongM[leg]! + share * (axis.alongM[leg + 1]! - axis.alongM[leg]!),
      direction: { eastM: step.eastM / lengthM, northM: step.northM / lengthM },
    });
  }
  return found;
};
