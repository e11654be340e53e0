import type { DrawnPiece } from '../pieces/index.js';
import { median } from '../signal/index.js';
import type { Craft } from '../units/craft.js';
import { clockCell, numberCell, speedCell, speedColumn, speedUnit } from './cells.js';
import { type PlotSeries, plotLines } from './plot.js';
import type { Reading, Section } from './section.js';

/** How a piece is drawn: characters across, lines for each of rate and speed, and the scale as shares of the median. */
const DRAWING = Object.freeze({ columns: 60, lines: 6, low: 0.85, high: 1.15 });

type Point = readonly [x: number, y: number];

/** Means over as many stretches of time as there are characters across. */
const thinned = (points: readonly Point[]): Point[] => {
  const [from, to] = [points[0]![0], points.at(-1)![0]];
  const bins = new Map<number, Point[]>();
  for (const point of points) {
    const bin = to > from ? Math.round(((point[0] - from) / (to - from)) * (DRAWING.columns - 1)) : 0;
    bins.set(bin, [...(bins.get(bin) ?? []), point]);
  }
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

/** Rate and, below it, speed along a piece, stroke by stroke, over one axis of time. */
export const piecePlot = (
  { file, piece, strokes }: DrawnPiece,
  named: boolean,
  craft: Craft | null,
  reading: Reading,
): Section => {
  const unit = speedUnit(reading, craft);
  const [, ...unitWords] = speedColumn(unit).heading.split(' ');
  const known = strokes.filter(({ rate_spm, speed_mps }) => rate_spm !== null && speed_mps !== null);
  const title = `Piece ${piece}${named ? `, ${file}` : ''}: rate, and below it speed, stroke by stroke`;
  const empty = { title, columns: [], rows: [], notes: [] };
  if (known.length < 2) return { ...empty, notes: ['There are no strokes with rate and speed to draw.'] };
  const rateLabel = (spm: number) => `${numberCell(spm, 1)} spm`;
  const speedLabel = (mps: number) => `${speedCell(mps, unit)} ${unitWords.join(' ')}`;
  const drawn = (value: (stroke: (typeof known)[number]) => number, yLabel: (y: number) => string) =>
    plotLines({
      series: seriesOf(
        thinned(known.map((stroke): Point => [stroke.cumulative_s, value(stroke)])),
        reading.plain ? '*' : '●',
      ),
      columns: DRAWING.columns,
      lines: DRAWING.lines,
      margin: 13,
      xLabel: (seconds) => clockCell(seconds),
      yLabel,
    });
  const rate = drawn(({ rate_spm }) => rate_spm!, rateLabel);
  const speed = drawn(({ speed_mps }) => speed_mps!, speedLabel);
  const beyond = [...rate, ...speed].some((line) => /\|.*[v^]/.test(line));
  return {
    ...empty,
    drawing: [...rate.slice(0, -1), ...speed],
    notes: beyond ? ['v and ^ lie beyond the scale.'] : [],
  };
};
