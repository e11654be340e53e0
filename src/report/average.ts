import { type AverageBand, type AverageResult, averageBand, cyclePoint } from '../contract/average.js';
import { SPEED_HEADING } from '../units/speed.js';
import { numberCell, speedCell } from './cells.js';
import { type PlotSeries, plotLines } from './plot.js';
import {
  drawingSection,
  figures,
  figuresWhereKnown,
  noteSection,
  type Reading,
  type Section,
} from './section.js';
import { flat, type View } from './view.js';

/** Points of the cycle that tables show, %; the plot and data formats have them all. */
export const EVERY_PCT = 10;

/** The rates of a band, in words. */
export const rangeOf = ({ from_spm, to_spm }: Pick<AverageBand, 'from_spm' | 'to_spm'>): string => {
  if (from_spm === null) return to_spm === null ? 'All rates' : `Below ${to_spm} spm`;
  return to_spm === null ? `${from_spm} spm and over` : `${from_spm} to ${to_spm} spm`;
};

const table = (band: AverageBand, reading: Reading): Section => {
  const unit = reading.speed ?? 'mps';
  const count = band.stroke_count === 1 ? '1 stroke' : `${band.stroke_count} strokes`;
  return {
    title: `${rangeOf(band)}: ${count}, mean rate ${numberCell(band.rate_spm, 1)} spm`,
    columns: [
      figures('% of cycle'),
      figures('surge m/s²'),
      figuresWhereKnown('± m/s²'),
      figuresWhereKnown(SPEED_HEADING[unit]),
      figuresWhereKnown('± m/s'),
    ],
    rows: band.cycle
      .filter(({ phase_pct }) => phase_pct % EVERY_PCT === 0)
      .map((point) => [
        numberCell(point.phase_pct),
        numberCell(point.acceleration_mps2, 2),
        numberCell(point.acceleration_sd_mps2, 2),
        speedCell(point.hull_speed_mps, unit),
        numberCell(point.hull_speed_sd_mps, 2),
      ]),
    notes: [],
  };
};

/** Surge over the cycle, drawn in characters. */
export const cyclePlot = (series: readonly PlotSeries[]): Section =>
  drawingSection(
    plotLines({
      series,
      columns: 51,
      lines: 9,
      xLabel: (phase) => `${numberCell(phase)} %`,
      yLabel: (surge) => `${numberCell(surge, 1)} m/s²`,
    }),
  );

const drawing = (band: AverageBand, reading: Reading): Section =>
  cyclePlot([
    {
      mark: reading.plain ? 'o' : '●',
      points: band.cycle.map(({ phase_pct, acceleration_mps2 }) => [phase_pct, acceleration_mps2]),
    },
  ]);

/** `thole strokes --average`: the crew's average stroke, a range of rates at a time. */
export const averageView: View<AverageResult> = {
  pictures: async () => (await import('./pictures/average-stroke.js')).averagePictures,
  keys: [...Object.keys(averageBand.omit({ cycle: true }).shape), ...Object.keys(cyclePoint.shape)],
  rows: ({ bands }) => bands,
  cells: ({ bands }) => bands.flatMap((band) => band.cycle.map((point) => ({ ...flat(band), ...point }))),
  sections: ({ bands }, reading) =>
    bands.length === 0
      ? [noteSection('No average stroke from this log.')]
      : [
          ...bands.flatMap((band) => [table(band, reading), drawing(band, reading)]),
          noteSection(
            'From one catch mark (0 %) to the next (100 %); surge is low-passed at 5 Hz. ± is one standard deviation from stroke to stroke.',
          ),
        ],
};
