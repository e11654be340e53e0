import type { Curve, CurveResult } from '../../contract/curve.js';
import type { DrawnCurve } from '../../contract/drawn.js';
import { numberCell, speedCell, speedUnit } from '../cells.js';
import { drawChart } from '../drawing/chart.js';
import { bandMark, dotMarks, errorMarks, lineMark, type Sample, uprightMark } from '../drawing/marks.js';
import type { Picture, Pointer } from '../drawing/picture.js';
import { plainQuantity, type Quantity, RATE_ALONG, speedQuantity } from '../drawing/quantity.js';
import { domainOf } from '../drawing/scale.js';
import type { Reading } from '../section.js';

const LENGTH: Quantity = plainQuantity('m a stroke', 'm', 2);

const pointerOf = ({ points }: Curve, speed: Quantity): Pointer => ({
  x: points.map(({ rate_spm }) => Number(rate_spm.toFixed(2))),
  shown: {
    rate: points.map(({ rate_spm }) => RATE_ALONG.format(rate_spm)),
    speed: points.map(({ speed_mps }) => speed.format(speed_mps)),
    '±': points.map(({ speed_sd_mps }) =>
      speed_sd_mps === null ? '–' : `${numberCell(speed_sd_mps, 2)} m/s`,
    ),
    length: points.map(({ distance_per_stroke_m }) => LENGTH.format(distance_per_stroke_m)),
    strokes: points.map(({ stroke_count }) => String(stroke_count)),
  },
});

const pictureOf = (curve: Curve, { blocks, line }: DrawnCurve, reading: Reading): Picture => {
  const unit = speedUnit(reading, null);
  const speed = speedQuantity(unit);
  const spans = curve.points.flatMap(({ rate_spm, speed_mps, speed_sd_mps }) =>
    speed_sd_mps === null
      ? []
      : [{ x: rate_spm, low: speed_mps - speed_sd_mps, high: speed_mps + speed_sd_mps }],
  );
  const drawn = (value: (point: DrawnCurve['line'][number]) => number): Sample[] =>
    line.map((point) => [point.rate_spm, value(point)]);
  const speeds = [
    ...blocks.map(({ speed_mps }) => speed_mps),
    ...line.flatMap((point) => [point.speed_mps, point.constant_work_mps]),
    ...spans.flatMap(({ low, high }) => [low, high]),
  ];
  const rates = [...blocks, ...curve.points].map(({ rate_spm }) => rate_spm);
  const { plateau_spm } = curve;
  return {
    title: 'What a higher rate buys',
    description: `Speed against rate of ${blocks.length} stretches of steady strokes, from ${numberCell(curve.rate_from_spm, 1)} to ${numberCell(curve.rate_to_spm, 1)} spm, with the fitted curve and the one of constant work a stroke. ${plateau_spm === null ? 'These data show no rate beyond which more rate buys no speed.' : `Near ${numberCell(plateau_spm, 1)} spm more rate stops buying speed.`}`,
    draw: (width) =>
      drawChart(
        {
          x: RATE_ALONG,
          domain: domainOf(rates, { room: 0.04, least: 4 }),
          legend: [
            { label: 'steady stretches', look: 'point', series: 4 },
            { label: 'mean by rate, ± one sd', look: 'dot', series: 0 },
            { label: 'fitted curve, 95 % of its exponent', look: 'line', series: 0 },
            { label: 'constant work a stroke', look: 'line', series: 1 },
          ],
          panels: [
            {
              y: speed,
              domain: domainOf(speeds, { least: 0.2 }),
              height: 260,
              pointer: 0,
              marks: (scales) => [
                bandMark(
                  line.map((point) => ({
                    x: point.rate_spm,
                    low: point.speed_low_mps,
                    high: point.speed_high_mps,
                  })),
                  0,
                  scales,
                ),
                plateau_spm === null ? '' : uprightMark(plateau_spm, scales),
                dotMarks(
                  blocks.map(({ rate_spm, speed_mps }): Sample => [rate_spm, speed_mps]),
                  4,
                  scales,
                  'small',
                ),
                lineMark(
                  drawn(({ constant_work_mps }) => constant_work_mps),
                  1,
                  scales,
                ),
                lineMark(
                  drawn(({ speed_mps }) => speed_mps),
                  0,
                  scales,
                ),
                errorMarks(spans, 0, scales),
                dotMarks(
                  curve.points.map(({ rate_spm, speed_mps }): Sample => [rate_spm, speed_mps]),
                  0,
                  scales,
                ),
              ],
            },
          ],
        },
        width,
      ),
    pointers: [pointerOf(curve, speed)],
    numbers: {
      title: 'The fitted curve',
      columns: [
        { heading: 'rate spm', align: 'right' },
        { heading: speed.heading, align: 'right' },
        { heading: 'from', align: 'right' },
        { heading: 'to', align: 'right' },
        { heading: 'at constant work', align: 'right' },
      ],
      rows: line
        .filter((_, i) => i % 5 === 0)
        .map((point) => [
          numberCell(point.rate_spm, 1),
          ...[point.speed_mps, point.speed_low_mps, point.speed_high_mps, point.constant_work_mps].map(
            (mps) => speedCell(mps, unit),
          ),
        ]),
      notes: [],
    },
    notes: [
      `Each small dot is eight steady strokes in a row. The band is what the exponent may be (95 %), pinned at the middle rate.${plateau_spm === null ? '' : ' The upright line is the rate beyond which more rate buys no speed here.'}`,
    ],
  };
};

/** The picture of `thole curve`; none where these logs carry no curve. */
export const curvePictures = ({ curve, drawn }: CurveResult, reading: Reading): readonly Picture[] =>
  curve === null || drawn === undefined ? [] : [pictureOf(curve, drawn, reading)];
