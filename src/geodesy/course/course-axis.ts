import type { Place } from '../place.js';
import { bearingOf, placeAfter, stepBetween } from '../step.js';
import type { Course } from './course.js';

/** Metres beyond the lines' own reach that a line made between them still reaches on each side. */
const SPARE_M = 30;

/** Piecewise straight map through pairs that increase in both; slope 1 outside them. */
const mapped = (from: readonly number[], to: readonly number[], value: number): number => {
  const last = from.length - 1;
  if (value <= from[0]!) return to[0]! + value - from[0]!;
  if (value >= from[last]!) return to[last]! + value - from[last]!;
  let i = 1;
  while (from[i]! < value) i++;
  const share = (value - from[i - 1]!) / (from[i]! - from[i - 1]!);
  return to[i - 1]! + share * (to[i]! - to[i - 1]!);
};

/**
 * A line square to the course at any place along it, by the lengths that the course states.
 * @param alongM from the start, as stated, m
 */
export const lineAlong = (
  course: Course,
  alongM: number,
): { readonly left: Place; readonly right: Place } => {
  const { axis, lines } = course;
  const known = lines.find((line) => Math.abs(line.alongM - alongM) < 1e-6);
  if (known !== undefined) return { left: known.left, right: known.right };
  const measuredM = mapped(
    lines.map((line) => line.alongM),
    lines.map((line) => line.measuredM),
    alongM,
  );
  const onAxisM = course.startOnAxisM + measuredM;
  let leg = 0;
  while (leg + 2 < axis.vertices.length && axis.alongM[leg + 1]! <= onAxisM) leg++;
  const begin = axis.vertices[leg]!;
  const step = stepBetween(begin, axis.vertices[leg + 1]!);
  const share = (onAxisM - axis.alongM[leg]!) / (axis.alongM[leg + 1]! - axis.alongM[leg]!);
  const middle = placeAfter(begin, { eastM: share * step.eastM, northM: share * step.northM });
  const half = Math.max(...lines.map((line) => line.widthM)) / 2 + SPARE_M;
  const bearing = (bearingOf(step) * Math.PI) / 180;
  const side = (sign: 1 | -1): Place =>
    placeAfter(middle, { eastM: sign * half * Math.cos(bearing), northM: -sign * half * Math.sin(bearing) });
  return { left: side(-1), right: side(1) };
};

/**
 * How far along a course a place lies, by the lengths that the course states, m from the start;
 * beyond the ends of its axis it is that of the end.
 * @param near where to look along the course, m; null looks everywhere
 */
export const alongCourse = (
  course: Course,
  place: Place,
  near: { readonly fromM: number; readonly toM: number } | null,
): { readonly alongM: number; readonly offsetM: number } | null => {
  const stated = course.lines.map((line) => line.alongM);
  const measured = course.lines.map((line) => line.measuredM);
  const window =
    near === null
      ? undefined
      : {
          fromM: course.startOnAxisM + mapped(stated, measured, near.fromM),
          toM: course.startOnAxisM + mapped(stated, measured, near.toM),
        };
  const foot = course.axis.footOf(place, window);
  if (foot === null) return null;
  return { alongM: mapped(measured, stated, foot.alongM - course.startOnAxisM), offsetM: foot.offsetM };
};
