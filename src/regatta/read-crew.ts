import type { Positions } from '../contract/positions.js';
import { courseAway } from '../geodesy/course/course-file.js';
import { alongCourse, type Course, finishOf, startOf } from '../geodesy/index.js';
import type { Track } from '../motion/track.js';
import { bowOf, hullLengthOf, type Outing, positionsOf } from '../outing/index.js';
import type { Stroke } from '../strokes/stroke.js';
import type { CrewLog, Run, StrokeMarks } from './crew-log.js';
import type { Entry } from './entries.js';
import { findRuns } from './find-runs.js';
import type { Stations } from './station.js';

/** A log whose nearest place is farther from the start than this belongs to other water, m. */
const ELSEWHERE_M = 20_000;

/** Why a log gives no result at all. */
export interface NoCrewLog {
  readonly code: 'no-position' | 'elsewhere';
  /** True where the course would fit with latitude and longitude swapped. */
  readonly swapped: boolean;
}

const endOf = (track: Track, course: Course, bowOffsetM: number): CrewLog['end'] => {
  const place = track.placeAt(track.toS);
  const speedMps = track.speedAt(track.toS);
  const found = place === null ? null : alongCourse(course, place, null);
  if (found === null || speedMps === null) return null;
  const alongM = found.alongM + bowOffsetM;
  const widest = Math.max(...course.lines.map(({ widthM }) => widthM));
  const on = alongM > startOf(course).alongM && alongM < finishOf(course).alongM && found.offsetM < widest;
  return on ? { alongM, speedMps } : null;
};

const marksOf = (strokes: readonly Stroke[]): StrokeMarks => {
  const forward = strokes.filter(({ kind }) => kind !== 'backing');
  return {
    atS: Float64Array.from(forward, ({ atS }) => atS),
    isLast: Uint8Array.from(forward, ({ rateSpm }) => (rateSpm === null ? 1 : 0)),
  };
};

/** Where the boat was from the first to the last moment of a run that is known, at its marks too. */
const alongRun = (track: Track, { start, marks, borders }: Run): Positions => {
  const moments = [start, ...marks, ...borders].flatMap((passage) => (passage === null ? [] : [passage.atS]));
  return positionsOf(track, { fromS: Math.min(...moments), toS: Math.max(...moments) }, moments);
};

/**
 * What one crew's outing tells of its runs down the course.
 * @param withMetres true where the times at every metre are wanted
 * @param withPositions true where a map is made: where the boat was
 */
export const readCrew = (
  entry: Pick<Entry, 'craft' | 'bowOffsetM'>,
  outing: Outing,
  course: Course,
  stations: Stations,
  withMetres: boolean,
  withPositions = false,
): CrewLog | NoCrewLog => {
  const { track } = outing;
  if (track === null) return { code: 'no-position', swapped: false };
  const first = track.placeAt(track.fromS);
  if (first !== null) {
    const away = courseAway(course, first);
    if (away.asWrittenM > ELSEWHERE_M) return { code: 'elsewhere', swapped: away.swappedM < ELSEWHERE_M };
  }
  const bow = bowOf(entry.craft, entry.bowOffsetM, outing.boat);
  const { source, strokes } = outing.strokes;
  const runs = findRuns({ track, course, stations, bow }, withMetres);
  return {
    startUnixS: track.startUnixS,
    extent: { fromS: track.fromS, toS: track.toS },
    runs: withPositions ? runs.map((run) => ({ ...run, positions: alongRun(track, run) })) : runs,
    strokes: source === null ? null : marksOf(strokes),
    errorModel: track.errorModel,
    end: endOf(track, course, bow.offsetM),
    hullLengthM: hullLengthOf(entry.craft, outing.boat),
    bowOffsetKnown: bow.known,
  };
};
