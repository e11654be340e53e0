import { type Curve, type CurveResult, curvePoint } from '../contract/curve.js';
import { curveSpeed } from '../pieces/index.js';
import { numberCell, speedCell, speedColumn, speedUnit } from './cells.js';
import { plotLines } from './plot.js';
import { drawingSection, facts, figures, noteSection, type Reading, type Section } from './section.js';
import { SPEED_OVER } from './speed-over.js';
import { flat, type View } from './view.js';

/** Exponent of constant work a stroke: speed ~ rate^(1/3). */
const CONSTANT_WORK = 1 / 3;

const summary = (curve: Curve): Section =>
  facts(`Rate against speed, ${SPEED_OVER[curve.speed_over]}`, [
    ['strokes', String(curve.stroke_count)],
    ['rates', `${numberCell(curve.rate_from_spm, 1)} to ${numberCell(curve.rate_to_spm, 1)} spm`],
    [
      'exponent',
      `${numberCell(curve.exponent, 3)} (${numberCell(curve.exponent_low, 3)} to ${numberCell(curve.exponent_high, 3)}; constant work a stroke is ${numberCell(CONSTANT_WORK, 3)})`,
    ],
    [
      'more rate stops buying speed',
      curve.plateau_spm === null
        ? 'not shown by these data'
        : `near ${numberCell(curve.plateau_spm, 1)} spm${(curve.exponent_beyond ?? 0) < 0 ? '; beyond it speed falls' : ''}`,
    ],
  ]);

const table = (curve: Curve, reading: Reading): Section => {
  const unit = speedUnit(reading, null);
  return {
    title: null,
    columns: [
      figures('rate spm'),
      speedColumn(unit),
      figures('± m/s'),
      figures('m/stroke'),
      figures('at constant work'),
      figures('strokes'),
    ],
    rows: curve.points.map((point) => [
      numberCell(point.rate_spm, 1),
      speedCell(point.speed_mps, unit),
      numberCell(point.speed_sd_mps, 2),
      numberCell(point.distance_per_stroke_m, 2),
      speedCell(
        curve.reference_speed_mps * (point.rate_spm / curve.reference_rate_spm) ** CONSTANT_WORK,
        unit,
      ),
      String(point.stroke_count),
    ]),
    notes: [],
  };
};

const STEPS = 60;

const drawing = (curve: Curve, reading: Reading): Section => {
  const [from, to] = [curve.rate_from_spm, curve.rate_to_spm];
  const line = Array.from({ length: STEPS + 1 }, (_, i) => {
    const rate = from + ((to - from) * i) / STEPS;
    return [rate, curveSpeed(curve, rate)!] as const;
  });
  const mark = reading.plain ? 'o' : '●';
  return drawingSection(
    plotLines({
      series: [
        { mark: reading.plain ? '.' : '·', points: line },
        { mark, points: curve.points.map((point) => [point.rate_spm, point.speed_mps]) },
      ],
      columns: 60,
      lines: 12,
      xLabel: (rate) => `${numberCell(rate)} spm`,
      yLabel: (speed) => `${numberCell(speed, 2)} m/s`,
    }),
  );
};

/** `thole curve`: rate against speed. */
export const curveView: View<CurveResult> = {
  pictures: async () => (await import('./pictures/curve.js')).curvePictures,
  keys: Object.keys(curvePoint.shape),
  rows: ({ curve }) => curve?.points ?? [],
  cells: ({ curve }) => (curve?.points ?? []).map((point) => flat(point)),
  sections: ({ curve }, reading) =>
    curve === null
      ? [noteSection('No curve from these logs.')]
      : [summary(curve), table(curve, reading), drawing(curve, reading)],
};
