import { type CourseRow, courseLineRow, type RegattaResult } from '../contract/regatta.js';
import { distanceCell, numberCell } from './cells.js';
import { figures, type Section, words } from './section.js';
import { flat, type View } from './view.js';

const courseSection = ({ file, centreline, lines }: CourseRow): Section => ({
  title: `Course ${file}`,
  columns: [
    words('line'),
    figures('at'),
    figures('measured'),
    figures('section'),
    figures('heading °'),
    figures('width m'),
  ],
  rows: lines.map((line, i) => [
    line.line,
    distanceCell(line.along_m),
    `${numberCell(line.measured_along_m, 1)} m`,
    i === 0 ? '' : `${numberCell(line.along_m - lines[i - 1]!.along_m, 0)} m`,
    numberCell(line.heading_deg, 1),
    numberCell(line.width_m, 1),
  ]),
  notes: [
    centreline
      ? 'Measured along the centreline.'
      : 'Measured from middle to middle of the lines, straight: a course that bends needs a centreline.',
  ],
});

/** `thole regatta --show-course`: the course as the tool sees it. */
export const courseView: View<RegattaResult> = {
  keys: Object.keys(courseLineRow.shape),
  rows: ({ course }) => course.lines,
  cells: ({ course }) => course.lines.map((line) => flat(line)),
  sections: ({ course }) => [courseSection(course)],
};
