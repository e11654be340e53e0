import type { LineKind } from '../../contract/course.js';
import type { Place } from '../place.js';
import type { Polyline } from '../polyline.js';

/** A line across the water, with the way a crew passes it. */
export interface CourseLine {
  readonly kind: LineKind;
  readonly name: string | null;
  /** Left and right end, as a crew passes in the direction of the course. */
  readonly left: Place;
  readonly right: Place;
  /** From the start, as the course file states it, else as measured, m. */
  readonly alongM: number;
  /** From the start along the axis, as the geometry has it, m. */
  readonly measuredM: number;
  readonly widthM: number;
  /** Direction of travel square to the line, degrees from true north. */
  readonly headingDeg: number;
}

/** A course: lines from start to finish, and the axis that joins them. */
export interface Course {
  /** The course file, or what was asked instead of one. */
  readonly name: string;
  /** In the order in which they are passed: the start, marks, the finish. */
  readonly lines: readonly CourseLine[];
  /** The centreline, else a line through the middles of the lines. */
  readonly axis: Polyline;
  readonly hasCentreline: boolean;
  /** Where the start crosses the axis, m along it. */
  readonly startOnAxisM: number;
  /** Start to finish, m. */
  readonly lengthM: number;
}

/** Start, or finish, of a course. */
export const startOf = (course: Course): CourseLine => course.lines[0]!;
export const finishOf = (course: Course): CourseLine => course.lines[course.lines.length - 1]!;
