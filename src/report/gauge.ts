import { type Gauge, type GaugeResult, gauge } from '../contract/gauge.js';
import { cell, clockCell, numberCell, UNKNOWN } from './cells.js';
import { facts, type Section, words } from './section.js';
import { flat, type View } from './view.js';

const SOURCE = { imu: 'accelerometer', speed: 'logged speed' } as const;

/** A direction as the sensor's axis nearest to it, and how far off it points. */
const axisWords = (axis: readonly number[]): string => {
  const sizes = axis.map(Math.abs);
  const k = sizes.indexOf(Math.max(...sizes));
  const offDeg = (Math.acos(Math.min(1, sizes[k]!)) * 180) / Math.PI;
  return `${axis[k]! < 0 ? '-' : '+'}${'xyz'[k]}${offDeg < 1 ? '' : `, ${numberCell(offDeg)}° off`}`;
};

const NOTE =
  'Usable rates: at which strokes of this strength were found when laid over the rest of the log. A moving boat meets waves faster than one at rest.';

const factsOf = (known: Gauge): Section => ({
  ...facts('Logger and water', [
    ['craft', known.craft ?? UNKNOWN],
    ['gauged by', known.source === null ? UNKNOWN : SOURCE[known.source]],
    ['rest', clockCell(known.rest_s)],
    ['steady strokes', String(known.stroke_count)],
    ['noise', cell(known.noise_mps2, (sd) => `${numberCell(sd, 3)} m/s²`)],
    ['stroke strength', cell(known.stroke_strength_mps2, (rms) => `${numberCell(rms, 2)} m/s²`)],
    ['ratio', numberCell(known.ratio, 1)],
    [
      'usable rates',
      known.rate_from_spm === null
        ? UNKNOWN
        : `${numberCell(known.rate_from_spm)} to ${numberCell(known.rate_to_spm)} spm`,
    ],
    ['forward is', cell(known.mount, ({ forward_axis }) => axisWords(forward_axis))],
    ['up is', cell(known.mount, ({ up_axis }) => axisWords(up_axis))],
  ]),
  notes: [NOTE],
});

const titleOf = ({ source, verdict }: Gauge): string => {
  if (source === null) return 'There is nothing here to gauge.';
  return verdict.every(({ yes }) => yes)
    ? 'This logger can be trusted in this water.'
    : 'This logger cannot be trusted in this water.';
};

const verdictSection = (known: Gauge): Section => ({
  title: titleOf(known),
  columns: [words('for'), words('good'), words('why')],
  rows: known.verdict.map(({ can, yes, why }) => [can, yes ? 'yes' : 'no', why]),
  notes: [],
});

const cellsOf = ({ mount, ...rest }: Gauge) => ({
  ...flat(rest),
  ...Object.fromEntries(
    (['forward_axis', 'up_axis'] as const).flatMap((name) =>
      ['x', 'y', 'z'].map((axis, k) => [`${name}_${axis}`, mount?.[name][k] ?? null]),
    ),
  ),
});

/** `thole gauge`: noise, strokes, mount and usable rates of one boat and its logger. */
export const gaugeView: View<GaugeResult> = {
  pictures: async () => (await import('./pictures/gauge.js')).gaugePictures,
  keys: [
    ...Object.keys(gauge.omit({ mount: true, verdict: true }).shape),
    ...['forward_axis', 'up_axis'].flatMap((name) => ['x', 'y', 'z'].map((axis) => `${name}_${axis}`)),
  ],
  rows: (result) => [result.gauge],
  cells: (result) => [cellsOf(result.gauge)],
  sections: (result) => [
    verdictSection(result.gauge),
    ...(result.gauge.source === null ? [] : [factsOf(result.gauge)]),
  ],
};
