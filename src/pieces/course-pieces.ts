import { type Course, finishOf, startOf } from '../geodesy/index.js';
import type { Interval } from '../motion/index.js';
import { type CoursePass, coursePasses, type Outing } from '../outing/index.js';
import type { Found } from './find-pieces.js';
import type { Part } from './part.js';
import type { Piece } from './piece.js';

const legsOf = ({ passages }: CoursePass): Part[] =>
  passages.slice(1).map((to, i) => {
    const from = passages[i]!;
    const base = passages[0]!.alongM;
    return {
      fromS: from.atS,
      toS: to.atS,
      fromM: Math.abs(from.alongM - base),
      toM: Math.abs(to.alongM - base),
      durationSdS: to.sinceLastSdS,
      distanceSdM: 0,
    };
  });

const pieceOf = (pass: CoursePass, course: Course): Piece => {
  const [first, last] = [pass.passages[0]!, pass.passages[pass.passages.length - 1]!];
  const coveredM = Math.abs(last.alongM - first.alongM);
  const whole = finishOf(course).alongM - startOf(course).alongM;
  return {
    fromS: first.atS,
    toS: last.atS,
    start: 'rolling',
    interruptions: [],
    outcome: Math.abs(coveredM - whole) < 1e-6 ? 'complete' : 'stopped_short',
    strokesFromS: first.atS,
    exactM: coveredM,
    exactS: null,
    startSdS: 0,
    endSdS: pass.durationSdS,
    courseWay: pass.direction,
    legs: legsOf(pass),
  };
};

/**
 * Every pass along a course as a piece, its parts the sections between the lines.
 * @param within only those between these moments; null for all
 */
export const coursePieces = (outing: Outing, course: Course, within: Interval | null): Found => {
  const passes = coursePasses(outing, course).filter(
    ({ passages }) =>
      within === null || (passages[0]!.atS >= within.fromS && passages.at(-1)!.atS <= within.toS),
  );
  return {
    pieces: passes.map((pass) => pieceOf(pass, course)),
    warnings:
      passes.length > 0
        ? []
        : [
            {
              code: 'course-not-passed',
              file: outing.file,
              where: null,
              message: `The boat passed no two neighbouring lines of ${course.name} without a rest between; print the course with thole regatta --show-course and check that it lies there.`,
            },
          ],
  };
};
