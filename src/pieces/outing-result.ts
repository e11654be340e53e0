import type { OutingResult } from '../contract/outing.js';
import type { Course } from '../geodesy/index.js';
import { courseSections, type Outing, resultFrame, type SummaryAsk, summarise } from '../outing/index.js';
import { findPieces } from './find-pieces.js';

/** What `thole outing` tells of an outing: its figures, rate bands and best stretches; along a course the times between its lines. */
export const outingResultOf = (
  outing: Outing,
  ask: Omit<SummaryAsk, 'pieceCount'> = {},
  course: Course | null = null,
): OutingResult => {
  const { row, warnings } = summarise(outing, {
    ...ask,
    pieceCount: findPieces(outing, { kind: 'unaided' }).pieces.length,
  });
  return {
    schema: 'thole/outing/1',
    ...resultFrame(outing, warnings),
    outings: [course === null ? row : { ...row, course_sections: courseSections(outing, course) }],
  };
};
