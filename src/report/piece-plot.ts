import type { DrawnPiece, DrawnPieceMoment } from '../contract/drawn.js';
import { median } from '../signal/index.js';
import type { Craft } from '../units/craft.js';
import { grouped } from '../units/grouped.js';
import { clockCell, numberCell, speedInUnit, speedUnit } from './cells.js';
import { type PlotSeries, plotLines } from './plot.js';
import { noteSection, type Reading, type Section } from './section.js';

/** How a piece is drawn: characters across, lines for each of rate and speed, and the scale as shares of the median. */
const DRAWING = Object.freeze({ columns: 60, lines: 6, low: 0.85, high: 1.15 });

type Point = readonly [x: number, y: number];

/** Means over as many stretches of time as there are characters across. */
const thinned = (points: readonly Point[]): Point[] => {
  const [from, to] = [points[0]![0], points.at(-1)![0]];
  const bins = grouped(points, ([x]) =>
    to > from ? Math.round(((x - from) / (to - from)) * (DRAWING.columns - 1)) : 0,
  );
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  // The first and the last keep their time, so that rate and speed stand on one axis.
  return [...bins.values()].map((own, i) => [
    i === 0 ? from : i === bins.size - 1 ? to : mean(own.map(([x]) => x)),
    mean(own.map(([, y]) => y)),
  ]);
};

/** Points on a scale around their median; what lies beyond it is drawn at its edge, with a mark of its own. */
const seriesOf = (points: readonly Point[], mark: string): PlotSeries[] => {
  const usual = median(points.map(([, y]) => y));
  const [low, high] = [DRAWING.low * usual, DRAWING.high * usual];
  return [
    { mark, points: points.filter(([, y]) => y >= low && y <= high) },
    { mark: 'v', points: points.filter(([, y]) => y < low).map(([x]) => [x, low]) },
    { mark: '^', points: points.filter(([, y]) => y > high).map(([x]) => [x, high]) },
  ];
};

/** Rate and, below it, speed along a piece over one axis of time; null where it has no strokes to draw. */
const piecePlot = (
  { file, piece, moments }: DrawnPiece,
  named: boolean,
  craft: Craft | null,
  reading: Reading,
): Section | null => {
  const unit = speedUnit(reading, craft);
  const pointsOf = (value: (moment: DrawnPieceMoment) => number | null): Point[] =>
    moments.flatMap((moment): Point[] => {
      const y = value(moment);
      return y === null ? [] : [[moment.cumulative_s, y]];
    });
  const rates = pointsOf(({ rate_spm }) => rate_spm);
  // The last stroke has no rate: left out of both, so that they stand on one axis.
  const speeds = pointsOf(({ rate_spm, speed_mps }) => (rate_spm === null ? null : speed_mps));
  const drawn = (points: readonly Point[], yLabel: (y: number) => string) =>
    points.length < 2
      ? []
      : plotLines({
          series: seriesOf(thinned(points), reading.plain ? '*' : '●'),
          columns: DRAWING.columns,
          lines: DRAWING.lines,
          margin: 13,
          xLabel: (seconds) => clockCell(seconds),
          yLabel,
        });
  const rate = drawn(rates, (spm) => `${numberCell(spm, 1)} spm`);
  const speed = drawn(speeds, (mps) => speedInUnit(mps, unit));
  if (rate.length === 0) return null;
  const both = speed.length > 0;
  const drawing = both ? [...rate.slice(0, -1), ...speed] : rate;
  return {
    title: `Piece ${piece}${named ? `, ${file}` : ''}: rate${both ? ', and below it speed' : ''}, stroke by stroke`,
    columns: [],
    rows: [],
    drawing,
    notes: drawing.some((line) => /\|.*[v^]/.test(line)) ? ['v and ^ lie beyond the scale.'] : [],
  };
};

/**
 * Drawings of pieces, one a piece that has strokes.
 * @param named whether each is to name its log
 * @param craftOf the craft of a log, which speeds are reported by
 */
export const piecePlots = (
  pieces: readonly DrawnPiece[],
  named: boolean,
  craftOf: (file: string) => Craft | null,
  reading: Reading,
): readonly Section[] => {
  const plots = pieces.flatMap((piece) => piecePlot(piece, named, craftOf(piece.file), reading) ?? []);
  return plots.length > 0 || pieces.length === 0 ? plots : [noteSection('There are no strokes to draw.')];
};
