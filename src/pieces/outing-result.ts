import type { DrawnOuting } from '../contract/drawn.js';
import type { OutingResult } from '../contract/outing.js';
import type { Course } from '../geodesy/index.js';
import {
  courseSections,
  momentsOf,
  type Outing,
  positionsOf,
  resultFrame,
  type SummaryAsk,
  stepsOf,
  summarise,
} from '../outing/index.js';
import { type Found, findPieces } from './find-pieces.js';

/** What pictures of an outing are drawn from. */
export interface DrawnAsk {
  /** Whether to say where the boat was. */
  readonly places: boolean;
}

const drawnOf = (outing: Outing, found: Found, { places }: DrawnAsk): DrawnOuting => ({
  moments: [...momentsOf(outing, { fromS: 0, toS: outing.recording.durationS }, places)],
  steps: [...stepsOf(outing)],
  pieces: found.pieces.map(({ fromS, toS }, i) => ({ piece: i + 1, start_at_s: fromS, end_at_s: toS })),
});

/**
 * What `thole outing` tells of an outing: its figures, rate bands and best stretches.
 * @param course along which the times between its lines are given; null for none
 * @param drawn what pictures are drawn from besides; null for none
 * @param withPositions whether to say where the boat was, for a map
 */
export const outingResultOf = (
  outing: Outing,
  ask: Omit<SummaryAsk, 'pieceCount'> = {},
  course: Course | null = null,
  drawn: DrawnAsk | null = null,
  withPositions = false,
): OutingResult => {
  const found = findPieces(outing, { kind: 'unaided' });
  const { row, warnings } = summarise(outing, { ...ask, pieceCount: found.pieces.length });
  return {
    schema: 'thole/outing/1',
    ...resultFrame(outing, warnings),
    outings: [
      {
        ...row,
        ...(course === null ? {} : { course_sections: courseSections(outing, course) }),
        ...(withPositions
          ? { positions: positionsOf(outing.track, { fromS: 0, toS: outing.recording.durationS }) }
          : {}),
        ...(drawn === null ? {} : { drawn: drawnOf(outing, found, drawn) }),
      },
    ],
  };
};
