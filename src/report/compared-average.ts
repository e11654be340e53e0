import {
  type AverageResult,
  type ComparedBand,
  comparedBand,
  comparedCyclePoint,
} from '../contract/average.js';
import { cyclePlot, EVERY_PCT, rangeOf } from './average.js';
import { numberCell } from './cells.js';
import { figures, noteSection, type Reading, type Section } from './section.js';
import { flat, type View } from './view.js';

const signed = (value: number): string => `${value > 0 ? '+' : ''}${numberCell(value, 2)}`;

const differences = ({ stretches, rates_alike }: ComparedBand): string =>
  !rates_alike
    ? 'The rates are more than 1.5 spm apart and a stroke changes with its rate, so no difference is shown: choose --bands in which they are alike.'
    : stretches.length === 0
      ? 'Nowhere in the cycle do they differ by more than their spread.'
      : stretches
          .map(
            ({ from_phase_pct, to_phase_pct, difference_mps2, spread_mps2 }) =>
              `From ${numberCell(from_phase_pct)} to ${numberCell(to_phase_pct)} % of the cycle the surge is ${numberCell(Math.abs(difference_mps2), 2)} m/s² ${difference_mps2 > 0 ? 'more' : 'less'} (spread ${numberCell(spread_mps2, 2)}).`,
          )
          .join(' ');

const table = (band: ComparedBand): Section => ({
  title: `${rangeOf(band)}: ${band.stroke_count} strokes at ${numberCell(band.rate_spm, 1)} spm, then ${band.with_stroke_count} at ${numberCell(band.with_rate_spm, 1)}`,
  columns: [
    figures('% of cycle'),
    figures('surge m/s²'),
    figures('then'),
    figures('difference'),
    figures('spread'),
  ],
  rows: band.cycle
    .filter(({ phase_pct }) => phase_pct % EVERY_PCT === 0)
    .map((point) => [
      numberCell(point.phase_pct),
      numberCell(point.acceleration_mps2, 2),
      numberCell(point.with_acceleration_mps2, 2),
      signed(point.difference_mps2),
      numberCell(point.spread_mps2, 2),
    ]),
  notes: [differences(band)],
});

const drawing = (band: ComparedBand, { plain }: Reading): Section => {
  const line = (mark: string, key: 'acceleration_mps2' | 'with_acceleration_mps2') => ({
    mark,
    points: band.cycle.map((point) => [point.phase_pct, point[key]] as const),
  });
  return cyclePlot([
    line(plain ? 'x' : '○', 'with_acceleration_mps2'),
    line(plain ? 'o' : '●', 'acceleration_mps2'),
  ]);
};

/** `thole strokes --average --with`: the average strokes of two logs over each other. */
export const comparedAverageView: View<AverageResult> = {
  keys: [
    ...Object.keys(comparedBand.omit({ cycle: true, stretches: true }).shape),
    ...Object.keys(comparedCyclePoint.shape),
  ],
  rows: ({ compared = [] }) => compared,
  cells: ({ compared = [] }) =>
    compared.flatMap(({ cycle, stretches: _, ...band }) =>
      cycle.map((point) => ({ ...flat(band), ...point })),
    ),
  sections: ({ compared = [] }, reading) =>
    compared.length === 0
      ? [noteSection('No rate band has an average stroke in both logs.')]
      : [
          ...compared.flatMap((band) => [table(band), drawing(band, reading)]),
          noteSection(
            `Drawn ${reading.plain ? 'o' : '●'} now, ${reading.plain ? 'x' : '○'} then. Spread is the standard deviation of a stroke of one against a stroke of the other; a logger mounted anew adds to a difference.`,
          ),
        ],
};
