import type { AverageBand, AverageResult, CyclePoint } from '../../contract/average.js';
import { cell, numberCell } from '../cells.js';
import { drawChart, type Panel } from '../drawing/chart.js';
import { acrossMark, bandMark, lineMark, type Sample, type Span } from '../drawing/marks.js';
import { SERIES_COUNT } from '../drawing/palette.js';
import type { Picture, Pointer } from '../drawing/picture.js';
import { plainQuantity, type Quantity, speedQuantity, TICK_ROOM } from '../drawing/quantity.js';
import { domainOf } from '../drawing/scale.js';
import type { Reading } from '../section.js';

const CYCLE = plainQuantity('% of the cycle, catch mark to catch mark', '%', 0, TICK_ROOM.along);
const SURGE = plainQuantity('surge m/s²', 'm/s²', 2);

/** What one panel draws of a point: the mean, and its standard deviation from stroke to stroke. */
type Value = (point: CyclePoint) => readonly [mean: number | null, sd: number | null];

const surgeOf: Value = (point) => [point.acceleration_mps2, point.acceleration_sd_mps2];
const hullSpeedOf: Value = (point) => [point.hull_speed_mps, point.hull_speed_sd_mps];

const samplesOf = ({ cycle }: AverageBand, value: Value): Sample[] =>
  cycle.map((point) => [point.phase_pct, value(point)[0]]);

const spansOf = ({ cycle }: AverageBand, value: Value): Span[] =>
  cycle.flatMap((point) => {
    const [mean, sd] = value(point);
    return mean === null || sd === null ? [] : [{ x: point.phase_pct, low: mean - sd, high: mean + sd }];
  });

const nameOf = ({ from_spm, to_spm, stroke_count, rate_spm }: AverageBand): string => {
  const range =
    from_spm === null
      ? to_spm === null
        ? 'all rates'
        : `below ${to_spm} spm`
      : to_spm === null
        ? `${from_spm} spm and over`
        : `${from_spm} to ${to_spm} spm`;
  return `${range} (${stroke_count} strokes, mean ${numberCell(rate_spm, 1)})`;
};

const pointerOf = (bands: readonly AverageBand[], value: Value, quantity: Quantity): Pointer => {
  const [first] = bands;
  return {
    x: first!.cycle.map(({ phase_pct }) => phase_pct),
    shown: {
      at: first!.cycle.map(({ phase_pct }) => CYCLE.format(phase_pct)),
      ...Object.fromEntries(
        bands.map((band) => [
          `${numberCell(band.rate_spm, 1)} spm`,
          first!.cycle.map((_, i) => {
            const point = band.cycle[i];
            const [mean, sd] = point === undefined ? [null, null] : value(point);
            return `${cell(mean, quantity.format)}${sd === null ? '' : ` ±${numberCell(sd, 2)}`}`;
          }),
        ]),
      ),
    },
  };
};

/** Surge and hull speed over one cycle, a line a rate band, with its spread; nothing where there is no average. */
export const averagePictures = ({ bands: all }: AverageResult, reading: Reading): readonly Picture[] => {
  const bands = all.slice(0, SERIES_COUNT);
  if (bands.length === 0) return [];
  const speed = speedQuantity(reading.speed ?? 'mps');
  const panelOf = (y: Quantity, value: Value, height: number, pointer: number): Panel[] => {
    const ends = bands.flatMap((band) => [
      ...samplesOf(band, value).flatMap(([, mean]) => mean ?? []),
      ...spansOf(band, value).flatMap(({ low, high }) => [low, high]),
    ]);
    if (ends.length === 0) return [];
    const domain = domainOf(ends);
    return [
      {
        y,
        domain,
        height,
        pointer,
        marks: (scales) => [
          domain[0] < 0 ? acrossMark(0, scales, 'zero') : '',
          ...bands.map((band, i) => bandMark(spansOf(band, value), i, scales)),
          ...bands.map((band, i) => lineMark(samplesOf(band, value), i, scales)),
        ],
      },
    ];
  };
  const panels = [...panelOf(SURGE, surgeOf, 200, 0), ...panelOf(speed, hullSpeedOf, 150, 1)];
  return [
    {
      title: 'The average stroke',
      description: `${panels.map(({ y }) => y.heading).join(' and, below it, ')} over one cycle, one line a rate band with its spread: ${bands.map(nameOf).join('; ')}.`,
      draw: (width) =>
        drawChart(
          {
            x: CYCLE,
            domain: [0, 100],
            panels,
            legend: bands.map((band, i) => ({ label: nameOf(band), look: 'line', series: i })),
          },
          width,
        ),
      pointers: [
        pointerOf(bands, surgeOf, SURGE),
        ...(panels.length > 1 ? [pointerOf(bands, hullSpeedOf, speed)] : []),
      ],
      numbers: null,
      notes: ['The band around a line is one standard deviation from stroke to stroke.'],
    },
  ];
};
