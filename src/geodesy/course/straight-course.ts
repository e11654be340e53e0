import { UserError } from '../../units/user-error.js';
import { destination, geodesicBetween } from '../geodesic.js';
import type { Place } from '../place.js';
import type { Course } from './course.js';
import { type LineDraft, makeCourse } from './make-course.js';

/** How a course between two points is laid. */
export const STRAIGHT_SETTINGS = Object.freeze({
  /** Width of its lines, m: six lanes of 13.5 m (World Rowing) and a lane to spare on either side. */
  widthM: 108,
  /** Marks stand every so many metres, as on regatta courses (World Rowing). */
  markEveryM: 500,
  /** Shortest course, m. */
  shortestM: 20,
});

const pointOf = (text: string): Place | null => {
  const found = /^\s*(-?\d+(?:\.\d+)?)\s*,\s*(-?\d+(?:\.\d+)?)\s*$/.exec(text);
  if (!found) return null;
  const [latDeg, lonDeg] = [Number(found[1]), Number(found[2])];
  return Math.abs(latDeg) <= 90 && Math.abs(lonDeg) <= 180 ? { latDeg, lonDeg } : null;
};

/**
 * A straight course from `LAT,LON:LAT,LON`: lines square to it at both points, and a mark every 500 m.
 * @throws UserError where the text is not two points apart from one another
 */
export const straightCourse = (text: string): Course => {
  const points = text.split(':').map(pointOf);
  const [start, finish] = points;
  if (points.length !== 2 || !start || !finish)
    throw new UserError(
      `"${text}" is not a course: write LAT,LON:LAT,LON in degrees, the middle of the start and of the finish, such as 47.201,8.602:47.215,8.617`,
    );
  const { distanceM } = geodesicBetween(start, finish);
  if (distanceM < STRAIGHT_SETTINGS.shortestM)
    throw new UserError(
      `start and finish of "${text}" are ${distanceM.toFixed(1)} m apart: at least ${STRAIGHT_SETTINGS.shortestM} m are needed`,
    );
  const lineAt = (kind: LineDraft['kind'], alongM: number): LineDraft => {
    const middle = destination(start, geodesicBetween(start, finish).bearingDeg, alongM);
    const here = geodesicBetween(start, middle);
    const bearingDeg = alongM === 0 ? geodesicBetween(start, finish).bearingDeg : here.finalBearingDeg;
    const half = STRAIGHT_SETTINGS.widthM / 2;
    return {
      kind,
      name: null,
      ends: [destination(middle, bearingDeg - 90, half), destination(middle, bearingDeg + 90, half)],
      alongM: kind === 'finish' ? null : alongM,
      error: (what) => new UserError(`${text}: ${what}`),
    };
  };
  const marks: LineDraft[] = [];
  for (
    let alongM = STRAIGHT_SETTINGS.markEveryM;
    alongM < distanceM - 1;
    alongM += STRAIGHT_SETTINGS.markEveryM
  )
    marks.push(lineAt('mark', alongM));
  return makeCourse({
    name: text,
    lines: [lineAt('start', 0), ...marks, lineAt('finish', distanceM)],
    centreline: null,
  });
};
