import { alongCourse, type Course, crossingTime, finishOf, startOf } from '../geodesy/index.js';
import type { Interval, Track } from '../motion/track.js';
import type { Bow } from '../outing/index.js';

/** How far along the course the next state is looked for, m: farther than a boat goes between two fixes. */
const REACH_M = 100;

/** When the bow reached each whole metre of the course within a stretch of the track. */
export const metreTimes = (
  { track, course, bow }: { readonly track: Track; readonly course: Course; readonly bow: Bow },
  { fromS, toS }: Interval,
): { readonly alongM: number; readonly atS: number }[] => {
  const metres: { alongM: number; atS: number }[] = [];
  const lastM = finishOf(course).alongM;
  let nextM = Math.ceil(startOf(course).alongM);
  let before: { alongM: number; atS: number } | null = null;
  for (const atS of track.atS) {
    if (atS < fromS - 1) continue;
    if (atS > toS + 1 || nextM > lastM) break;
    const place = track.placeAt(atS);
    if (place === null) {
      before = null;
      continue;
    }
    const nearM: number = before?.alongM ?? nextM;
    const found = alongCourse(course, place, {
      fromM: nearM - bow.offsetM - REACH_M,
      toM: nearM - bow.offsetM + REACH_M,
    });
    if (found === null) continue;
    const alongM = found.alongM + bow.offsetM;
    if (before === null) nextM = Math.max(nextM, Math.ceil(alongM));
    else
      for (; nextM <= Math.min(alongM, lastM); nextM++)
        metres.push({
          alongM: nextM,
          atS: crossingTime(before.alongM - nextM, alongM - nextM, before.atS, atS),
        });
    if (before === null || alongM > before.alongM) before = { alongM, atS };
  }
  return metres;
};
