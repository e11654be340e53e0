import { type Course, lineAlong, type Place, startOf } from '../geodesy/index.js';

/** A line of the course, or one laid across it where a part ends. */
export interface Station {
  readonly alongM: number;
  readonly left: Place;
  readonly right: Place;
}

/** Lines at which crews are timed. */
export interface Stations {
  readonly start: Station;
  /** Marks and the finish, in order. */
  readonly marks: readonly Station[];
  /** Borders between equal parts, and the finish. */
  readonly borders: readonly Station[];
}

/** The stations of a course with so many equal parts. */
export const stationsOf = (course: Course, parts: number): Stations => {
  const first = startOf(course);
  const at = (alongM: number): Station => ({ alongM, ...lineAlong(course, alongM) });
  return {
    start: at(first.alongM),
    marks: course.lines.slice(1).map(({ alongM, left, right }) => ({ alongM, left, right })),
    borders: Array.from({ length: parts }, (_, i) => at(first.alongM + (course.lengthM * (i + 1)) / parts)),
  };
};
