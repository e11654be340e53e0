import type { DrawnGap } from '../../contract/drawn.js';
import type { PiecesResult } from '../../contract/pieces.js';
import { numberCell, timeCell } from '../cells.js';
import { drawChart } from '../drawing/chart.js';
import { acrossMark, dotMarks, errorMarks, lineMark, type Sample } from '../drawing/marks.js';
import { SERIES_COUNT } from '../drawing/palette.js';
import type { Picture, Pointer } from '../drawing/picture.js';
import { ALONG, signedSeconds } from '../drawing/quantity.js';
import { domainOf } from '../drawing/scale.js';
import type { Reading } from '../section.js';

const BEHIND = signedSeconds('s behind the fastest boat');

/** Groups of one page that are drawn; the tables have all. */
const MOST = 12;

const samplesOf = ({ gaps }: DrawnGap): Sample[] => [
  [0, 0],
  ...gaps.map(({ along_m, gap_s }): Sample => [along_m, gap_s]),
];

const spanOf = ({ end_along_m, end_gap_s, end_gap_sd_s }: DrawnGap) =>
  end_gap_sd_s === null
    ? []
    : [{ x: end_along_m, low: end_gap_s - end_gap_sd_s, high: end_gap_s + end_gap_sd_s }];

const pointerOf = (rows: readonly DrawnGap[], nameOf: (file: string) => string): Pointer => {
  const places = [...new Set(rows.flatMap(({ gaps }) => gaps.map(({ along_m }) => along_m)))].sort(
    (a, b) => a - b,
  );
  const shown = rows.map(({ file, gaps }) => {
    const at = new Map(gaps.map(({ along_m, gap_s }) => [along_m, gap_s]));
    return [
      nameOf(file),
      places.map((along) => (at.has(along) ? BEHIND.format(at.get(along)!) : '–')),
    ] as const;
  });
  return { x: places, shown: { at: places.map((along) => `${along} m`), ...Object.fromEntries(shown) } };
};

const groupPicture = (rows: readonly DrawnGap[], result: PiecesResult, reading: Reading): Picture => {
  const nameOf = (file: string) => result.pieces.find((row) => row.file === file)?.crew ?? file;
  const first = nameOf(rows[0]!.against_file);
  const start = result.together?.find(({ group }) => group === rows[0]!.group)?.start_time ?? null;
  const drawn = rows.slice(0, SERIES_COUNT);
  const values = drawn.flatMap((row) => [
    ...row.gaps.map(({ gap_s }) => gap_s),
    row.end_gap_s,
    ...spanOf(row).flatMap(({ low, high }) => [low, high]),
  ]);
  const [low, high] = domainOf([0, ...values]);
  return {
    title: `The gap along the water${start === null ? '' : `, from ${timeCell(start, reading)}`}`,
    description: `Seconds behind ${first} at every ten metres: ${drawn.map(({ file, end_gap_s, end_along_m }) => `${nameOf(file)} ${numberCell(end_gap_s, 1)} s behind at ${numberCell(end_along_m)} m`).join('; ')}.`,
    draw: (width) =>
      drawChart(
        {
          x: ALONG,
          domain: [0, drawn[0]!.end_along_m * 1.02],
          legend: drawn.map(({ file }, i) => ({ label: nameOf(file), look: 'line', series: i })),
          panels: [
            {
              y: BEHIND,
              // Ahead is up, as the faster is in every picture.
              domain: [high, low],
              height: 190,
              pointer: 0,
              marks: (scales) => [
                acrossMark(0, scales, 'zero'),
                ...drawn.flatMap((row, i) => [
                  lineMark(samplesOf(row), i, scales),
                  errorMarks(spanOf(row), i, scales),
                  dotMarks([[row.end_along_m, row.end_gap_s]], i, scales),
                ]),
              ],
            },
          ],
        },
        width,
      ),
    pointers: [pointerOf(drawn, nameOf)],
    numbers: null,
    notes: [
      `Each boat is timed from its own start; the line at 0 is ${first}. The dot at the end is the margin of the table, with one standard deviation.`,
    ],
  };
};

/** The gap between boats along the water, one picture for each time that they rowed together. */
export const piecesTogether = (result: PiecesResult, reading: Reading): readonly Picture[] => {
  const gaps = (result.drawn_gaps ?? []).filter((row) => row.gaps.length > 1);
  return [...new Set(gaps.map(({ group }) => group))].slice(0, MOST).map((group) =>
    groupPicture(
      gaps.filter((row) => row.group === group),
      result,
      reading,
    ),
  );
};
