import type { OpeningRow, OpeningStrokeRow } from '../../contract/piece-detail.js';
import type { PiecesResult } from '../../contract/pieces.js';
import type { SpeedUnit } from '../../units/speed.js';
import { drawChart, type Panel } from '../drawing/chart.js';
import { acrossMark, dotMarks, errorMarks, lineMark, type Sample } from '../drawing/marks.js';
import { SERIES_COUNT } from '../drawing/palette.js';
import type { Picture } from '../drawing/picture.js';
import { countQuantity, plainQuantity, type Quantity, RATE, speedQuantity } from '../drawing/quantity.js';
import { domainOf } from '../drawing/scale.js';

const STROKE = countQuantity('stroke');
const METRES = plainQuantity('m a stroke', 'm', 2);

const samplesOf = ({ strokes }: OpeningRow, value: (stroke: OpeningStrokeRow) => number | null): Sample[] =>
  strokes.map((stroke) => [stroke.stroke, value(stroke)]);

const valuesOf = (
  openings: readonly OpeningRow[],
  value: (stroke: OpeningStrokeRow) => number | null,
): number[] =>
  openings.flatMap(({ strokes }) => strokes.map(value).filter((each): each is number => each !== null));

const lengthSpans = ({ strokes }: OpeningRow) =>
  strokes.flatMap(({ stroke, distance_m, distance_sd_m }) =>
    distance_m === null || distance_sd_m === null
      ? []
      : [{ x: stroke, low: distance_m - distance_sd_m, high: distance_m + distance_sd_m }],
  );

/** The first strokes of the pieces over one another: speed, rate and length with ±; null where none were asked for. */
export const piecesOpenings = (result: PiecesResult, unit: SpeedUnit): Picture | null => {
  const all = (result.openings ?? []).filter(({ strokes }) => strokes.length > 1);
  const openings = all.slice(0, SERIES_COUNT);
  if (openings.length === 0) return null;
  const several = new Set(result.pieces.map(({ file }) => file)).size > 1;
  const crewOf = (file: string) => result.pieces.find((row) => row.file === file)?.crew ?? file;
  const panel = (
    y: Quantity,
    height: number,
    value: (stroke: OpeningStrokeRow) => number | null,
    more: Pick<Panel, 'marks'>['marks'] = () => [],
  ): Panel[] => {
    const values = valuesOf(openings, value);
    if (values.length < 2) return [];
    return [
      {
        y,
        domain: domainOf(values),
        height,
        marks: (scales) => [
          ...more(scales),
          ...openings.flatMap((opening, i) => [
            lineMark(samplesOf(opening, value), i, scales),
            dotMarks(samplesOf(opening, value), i, scales, openings.length > 1 ? 'small' : 'usual'),
          ]),
        ],
      },
    ];
  };
  const race = openings.length === 1 ? openings[0]!.race_speed_mps : null;
  const panels = [
    ...panel(
      speedQuantity(unit),
      150,
      ({ speed_mps }) => speed_mps,
      (scales) => (race === null ? [] : [acrossMark(race, scales)]),
    ),
    ...panel(RATE, 90, ({ rate_spm }) => rate_spm),
    ...panel(
      METRES,
      90,
      ({ distance_m }) => distance_m,
      (scales) => openings.map((opening, i) => errorMarks(lengthSpans(opening), i, scales)),
    ),
  ];
  if (panels.length === 0) return null;
  return {
    title: 'How each piece got going, stroke by stroke',
    description: `Speed, rate and metres of the first ${Math.max(...openings.map(({ strokes }) => strokes.length))} strokes of ${openings.length} pieces, one line a piece.`,
    draw: (width) =>
      drawChart(
        {
          x: STROKE,
          domain: [
            0.5,
            Math.max(...openings.flatMap(({ strokes }) => strokes.map(({ stroke }) => stroke))) + 0.5,
          ],
          panels,
          legend: openings.map(({ piece, file, start }, i) => ({
            label: `piece ${piece}${several ? `, ${crewOf(file)}` : ''}, ${start} start`,
            look: 'line',
            series: i,
          })),
        },
        width,
      ),
    pointers: [],
    numbers: null,
    notes: [
      `Bars are one standard deviation of the metres.${race === null ? '' : ' Across: race speed, the mean of the middle half of the piece.'}`,
      ...(all.length > openings.length
        ? [`Drawn are the first ${openings.length} of ${all.length} openings; the tables below have all.`]
        : []),
    ],
  };
};
