import type { LineKind } from '../../contract/course.js';
import { UserError } from '../../units/user-error.js';
import { geodesicBetween } from '../geodesic.js';
import type { Place } from '../place.js';
import { type Polyline, polylineThrough } from '../polyline.js';
import { bearingOf, placeAfter, type Step, stepBetween } from '../step.js';
import { type AxisCrossing, axisCrossings } from './axis-crossing.js';
import type { Course, CourseLine } from './course.js';

/** A line as the user gave it. */
export interface LineDraft {
  readonly kind: LineKind;
  readonly name: string | null;
  readonly ends: readonly [Place, Place];
  /** Null: to be measured. */
  readonly alongM: number | null;
  /** An error about this line. */
  readonly error: (what: string) => UserError;
}

/** What a course is made from. */
export interface CourseDraft {
  readonly name: string;
  readonly lines: readonly LineDraft[];
  readonly centreline: {
    readonly places: readonly Place[];
    readonly error: (what: string) => UserError;
  } | null;
}

export const COURSE_SETTINGS = Object.freeze({
  /** Share by which a stated length may differ from the geometry. */
  tolerance: 0.01,
  /** Metres of difference that are never an error: the width of a line drawn by hand. */
  toleranceM: 3,
  /** Shortest line, m: a single lane is 13.5 m (World Rowing), a boat with its oars 6 m. */
  narrowestM: 3,
});

const middleOf = ([from, to]: readonly [Place, Place]): Place => {
  const step = stepBetween(from, to);
  return placeAfter(from, { eastM: step.eastM / 2, northM: step.northM / 2 });
};

const labelOf = ({ kind, alongM }: LineDraft): string =>
  kind === 'mark' ? `the mark${alongM === null ? '' : ` at ${alongM} m`}` : `the ${kind}`;

const oneOf = (draft: CourseDraft, kind: 'start' | 'finish'): LineDraft => {
  const found = draft.lines.filter((line) => line.kind === kind);
  if (found.length === 1) return found[0]!;
  if (found.length > 1)
    throw found[1]!.error(`there are ${found.length} lines with "line": "${kind}": keep one of them`);
  throw new UserError(
    `${draft.name} has no ${kind} line: give one LineString the property "line": "${kind}"`,
  );
};

const inOrder = (draft: CourseDraft): LineDraft[] => {
  const start = oneOf(draft, 'start');
  const finish = oneOf(draft, 'finish');
  const marks = draft.lines.filter((line) => line.kind === 'mark');
  for (const mark of marks)
    if (mark.alongM === null) throw mark.error('a mark needs "along_m", its metres from the start');
  marks.sort((a, b) => a.alongM! - b.alongM!);
  const startM = start.alongM ?? 0;
  if (finish.alongM !== null && finish.alongM <= startM)
    throw finish.error(
      `the finish is at ${finish.alongM} m and the start at ${startM} m: the start comes first, so correct "along_m" or swap the two lines`,
    );
  marks.forEach((mark, i) => {
    const before = i === 0 ? startM : marks[i - 1]!.alongM!;
    if (mark.alongM! <= before || (finish.alongM !== null && mark.alongM! >= finish.alongM))
      throw mark.error(
        `${labelOf(mark)} must lie between the start and the finish and apart from other marks: correct its "along_m"`,
      );
  });
  return [start, ...marks, finish];
};

const axisOf = (draft: CourseDraft, lines: readonly LineDraft[]): Polyline => {
  if (draft.centreline === null) {
    const axis = polylineThrough(lines.map((line) => middleOf(line.ends)));
    if (axis === null || axis.vertices.length !== lines.length)
      throw lines[0]!.error('two lines have the same middle: move one of them');
    return axis;
  }
  const axis = polylineThrough(draft.centreline.places);
  if (axis === null) throw draft.centreline.error('the centreline needs two points that differ');
  return axis;
};

/** The centreline, turned so that it leads from the start to the finish. */
const turned = (axis: Polyline, start: LineDraft, finish: LineDraft): Polyline => {
  const from = axisCrossings(axis, ...start.ends)[0];
  const to = axisCrossings(axis, ...finish.ends).at(-1);
  if (!from || !to || from.alongM <= to.alongM) return axis;
  return polylineThrough([...axis.vertices].reverse())!;
};

const crossingOf = (axis: Polyline, line: LineDraft, expectedM: number | null): AxisCrossing => {
  const found = axisCrossings(axis, ...line.ends);
  if (found.length === 0)
    throw line.error(
      `${labelOf(line)} does not cross the centreline: make the line reach from bank to bank, or the centreline reach beyond it`,
    );
  if (expectedM === null) return line.kind === 'finish' ? found[found.length - 1]! : found[0]!;
  return found.reduce((best, next) =>
    Math.abs(next.alongM - expectedM) < Math.abs(best.alongM - expectedM) ? next : best,
  );
};

/** How the axis runs at the middle of a line that the axis was made from. */
const directionAt = (axis: Polyline, index: number): Step => {
  const last = axis.vertices.length - 1;
  const step = stepBetween(axis.vertices[Math.max(0, index - 1)]!, axis.vertices[Math.min(last, index + 1)]!);
  const lengthM = Math.hypot(step.eastM, step.northM);
  return { eastM: step.eastM / lengthM, northM: step.northM / lengthM };
};

const laid = (draft: LineDraft, crossing: AxisCrossing, startM: number, statedStartM: number): CourseLine => {
  const [first, second] = draft.ends;
  const widthM = geodesicBetween(first, second).distanceM;
  if (!(widthM >= COURSE_SETTINGS.narrowestM))
    throw draft.error(
      `${labelOf(draft)} is ${widthM.toFixed(1)} m wide: a line reaches across the water, at least ${COURSE_SETTINGS.narrowestM} m`,
    );
  const across = stepBetween(first, second);
  // Travel is to the left of the line from right end to left end, so the line from left to right has it on its left.
  const firstIsLeft = across.eastM * crossing.direction.northM - across.northM * crossing.direction.eastM > 0;
  const [left, right] = firstIsLeft ? [first, second] : [second, first];
  const measuredM = crossing.alongM - startM;
  return {
    kind: draft.kind,
    name: draft.name,
    left,
    right,
    alongM: draft.alongM ?? (draft.kind === 'start' ? statedStartM : statedStartM + measuredM),
    measuredM,
    widthM,
    headingDeg: (bearingOf(stepBetween(left, right)) + 270) % 360,
  };
};

const checkAlong = (
  lines: readonly CourseLine[],
  drafts: readonly LineDraft[],
  hasCentreline: boolean,
): void => {
  lines.forEach((line, i) => {
    if (i === 0) return;
    const draft = drafts[i]!;
    if (line.measuredM <= lines[i - 1]!.measuredM)
      throw draft.error(
        `marks out of order: ${labelOf(draft)} comes before ${labelOf(drafts[i - 1]!)} on the water; check "along_m" and the coordinates of both`,
      );
    const statedM = line.alongM - lines[0]!.alongM;
    const off = Math.abs(line.measuredM - statedM);
    if (off > Math.max(COURSE_SETTINGS.toleranceM, COURSE_SETTINGS.tolerance * statedM))
      throw draft.error(
        `${labelOf(draft)} is ${line.measuredM.toFixed(0)} m from the start by its coordinates and ${statedM} m by "along_m": correct one of them${hasCentreline ? '' : ', or add a centreline where the course bends'}`,
      );
  });
};

/**
 * Make a course and check it.
 * @throws UserError that says which line is wrong and what to change
 */
export const makeCourse = (draft: CourseDraft): Course => {
  const drafts = inOrder(draft);
  const [start, finish] = [drafts[0]!, drafts[drafts.length - 1]!];
  const hasCentreline = draft.centreline !== null;
  const drawn = axisOf(draft, drafts);
  const axis = hasCentreline ? turned(drawn, start, finish) : drawn;
  const startM = hasCentreline ? crossingOf(axis, start, null).alongM : 0;
  const statedStartM = start.alongM ?? 0;
  const lines = drafts.map((line, i) => {
    const expectedM = line.alongM === null ? null : startM + line.alongM - statedStartM;
    const crossing = hasCentreline
      ? crossingOf(axis, line, expectedM)
      : { alongM: axis.alongM[i]!, direction: directionAt(axis, i) };
    return laid(line, crossing, startM, statedStartM);
  });
  checkAlong(lines, drafts, hasCentreline);
  return {
    name: draft.name,
    lines,
    axis,
    hasCentreline,
    startOnAxisM: startM,
    lengthM: lines[lines.length - 1]!.alongM - lines[0]!.alongM,
  };
};
