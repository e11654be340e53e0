import { type PaceResult, type PaceRow, paceRow } from '../contract/pace.js';
import { formatSpeed, SPEED_HEADING, type SpeedUnit } from '../units/speed.js';
import { cell, clockCell, numberCell, speedCell } from './cells.js';
import { facts, figures, type Section } from './section.js';
import { flat, type View } from './view.js';

const speedIn = (row: PaceRow, unit: SpeedUnit, name: string): string =>
  cell(row.speed_mps, (speed) => `${formatSpeed(speed, unit)}${name}`);

const answer = (row: PaceRow): Section =>
  facts(
    'Pace',
    (
      [
        ['split', row.speed_mps, `${speedIn(row, 'split', ' /500 m')}`],
        [
          'speed',
          row.speed_mps,
          `${speedIn(row, 'mps', ' m/s')}, ${speedIn(row, 'kmh', ' km/h')}, ${speedIn(row, 'knots', ' kn')}`,
        ],
        ['rate', row.rate_spm, `${numberCell(row.rate_spm, 1)} spm`],
        ['per stroke', row.distance_per_stroke_m, `${numberCell(row.distance_per_stroke_m, 2)} m`],
        ['distance', row.distance_m, `${numberCell(row.distance_m, 1)} m`],
        ['time', row.duration_s, clockCell(row.duration_s, 1)],
        ['strokes', row.stroke_count, numberCell(row.stroke_count)],
      ] as const
    )
      .filter(([, value]) => value !== null)
      .map(([name, , text]) => [name, text] as const),
  );

/** A speed beside the unit asked for, so that one of them is a speed and the other what people know. */
const speedUnits = (unit: SpeedUnit): readonly SpeedUnit[] =>
  unit === 'split' ? ['split', 'mps'] : [unit, 'split'];

const ratesFor = (rows: readonly PaceRow[], unit: SpeedUnit): Section => ({
  title: `Rate for ${numberCell(rows[0]!.distance_per_stroke_m, 2)} m a stroke`,
  columns: [...speedUnits(unit).map((each) => figures(SPEED_HEADING[each])), figures('rate spm')],
  rows: rows.map((row) => [
    ...speedUnits(unit).map((each) => speedIn(row, each, '')),
    numberCell(row.rate_spm, 1),
  ]),
  notes: [],
});

/** Rates side by side in one table: more do not fit 80 columns. */
const RATES_ACROSS = 11;

const targets = (rows: readonly PaceRow[], unit: SpeedUnit): readonly Section[] => {
  const rates = [...new Set(rows.map((row) => row.rate_spm))];
  const splits = [...new Set(rows.map((row) => row.split_s_per_500m))];
  const whole = rates.every((rate) => Number.isInteger(rate));
  return Array.from({ length: Math.ceil(rates.length / RATES_ACROSS) }, (_, block) => {
    const from = block * RATES_ACROSS;
    const across = rates.slice(from, from + RATES_ACROSS);
    return {
      title: `Metres a stroke, by ${unit === 'split' ? 'split' : 'speed'} and rate (spm)`,
      columns: [
        figures(SPEED_HEADING[unit]),
        ...across.map((rate) => figures(numberCell(rate, whole ? 0 : 1))),
      ],
      rows: splits.map((split, i) => [
        speedCell(split === null ? null : 500 / split, unit),
        ...rows
          .slice(i * rates.length + from, i * rates.length + from + across.length)
          .map((row) => numberCell(row.distance_per_stroke_m, 1)),
      ]),
      notes: [],
    };
  });
};

const rowsOf = ({ pace, sheet }: PaceResult): readonly PaceRow[] => (pace === null ? sheet : [pace]);

/** `thole pace`: quantities turned into one another, or a target sheet. */
export const paceView: View<PaceResult> = {
  keys: Object.keys(paceRow.shape),
  rows: rowsOf,
  cells: (result) => rowsOf(result).map((row) => flat(row)),
  sections: ({ pace, sheet }, { speed }) => {
    const unit = speed ?? 'split';
    if (pace !== null) return [answer(pace)];
    // Without a wanted distance per stroke every split has a row for each rate.
    const splits = new Set(sheet.map((row) => row.split_s_per_500m));
    const wanted = new Set(sheet.map((row) => row.distance_per_stroke_m));
    return wanted.size === 1 && splits.size === sheet.length ? [ratesFor(sheet, unit)] : targets(sheet, unit);
  },
};
