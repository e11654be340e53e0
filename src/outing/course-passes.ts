import type { Course } from '../geodesy/index.js';
import type { Crossing, Track } from '../motion/track.js';
import { bowOf } from './bow.js';
import type { Outing } from './outing.js';

/** A line of the course as a boat crossed it. */
export interface LinePassage {
  /** Index of the line among the course's. */
  readonly line: number;
  readonly alongM: number;
  readonly atS: number;
  /** sd of the time since the passage before; null at the first. */
  readonly sinceLastSdS: number | null;
}

/** Once past neighbouring lines of a course, in one direction and without a rest. */
export interface CoursePass {
  /** With the course, from its start to its finish, or the other way. */
  readonly direction: 'with' | 'against';
  /** At least two, in time order. */
  readonly passages: readonly LinePassage[];
  /** sd of the time from the first to the last, s. */
  readonly durationSdS: number;
}

interface Passing {
  readonly line: number;
  readonly crossing: Crossing;
}

const passingsOf = (track: Track, course: Course, outing: Outing): Passing[] => {
  const bow = bowOf(outing.craft, null, outing.boat);
  return course.lines
    .flatMap(({ left, right }, line) =>
      track
        .crossings({ from: left, to: right, bowOffsetM: bow.offsetM, bowOffsetSdM: bow.sdM })
        .map((crossing) => ({ line, crossing })),
    )
    .sort((a, b) => a.crossing.atS - b.crossing.atS);
};

const follows = (track: Track, last: Passing, next: Passing): boolean => {
  const direction = next.crossing.direction;
  if (last.crossing.direction !== direction || next.line !== last.line + direction) return false;
  const between = ({ fromS, toS }: { fromS: number; toS: number }) =>
    fromS < next.crossing.atS && toS > last.crossing.atS;
  return !track.stationary.some(between) && !track.outages.some(between);
};

const passOf = (track: Track, course: Course, run: readonly Passing[]): CoursePass => ({
  direction: run[0]!.crossing.direction === 1 ? 'with' : 'against',
  passages: run.map(({ line, crossing }, i) => ({
    line,
    alongM: course.lines[line]!.alongM,
    atS: crossing.atS,
    sinceLastSdS: i === 0 ? null : track.crossingDurationSdS(run[i - 1]!.crossing, crossing),
  })),
  durationSdS: track.crossingDurationSdS(run[0]!.crossing, run[run.length - 1]!.crossing),
});

/** Every pass of an outing along a course, either way, in time order; none without a track. */
export const coursePasses = (outing: Outing, course: Course): readonly CoursePass[] => {
  const { track } = outing;
  if (track === null) return [];
  const runs: Passing[][] = [];
  for (const passing of passingsOf(track, course, outing)) {
    const last = runs.at(-1)?.at(-1);
    if (last !== undefined && follows(track, last, passing)) runs.at(-1)!.push(passing);
    else runs.push([passing]);
  }
  return runs.filter((run) => run.length > 1).map((run) => passOf(track, course, run));
};
