import type { DrawnGauge } from '../../contract/drawn.js';
import type { GaugeResult } from '../../contract/gauge.js';
import { numberCell } from '../cells.js';
import { drawChart } from '../drawing/chart.js';
import { acrossMark, dotMarks, lineMark, type Sample } from '../drawing/marks.js';
import type { Picture } from '../drawing/picture.js';
import { plainQuantity, RATE_ALONG, TICK_ROOM } from '../drawing/quantity.js';

const FOUND = plainQuantity('% of strokes found', '%', 0);
const HERTZ = plainQuantity('times a second, Hz', 'Hz', 2, TICK_ROOM.along);
const LEVEL = plainQuantity('level dB (ten more is ten times the power)', 'dB', 0);

const foundPicture = ({ gauge }: GaugeResult, { found, least_pct }: DrawnGauge): Picture | null => {
  if (found.length < 2) return null;
  const samples = found.map(({ rate_spm, found_pct }): Sample => [rate_spm, found_pct]);
  const usable =
    gauge.rate_from_spm === null || gauge.rate_to_spm === null
      ? []
      : [{ from: gauge.rate_from_spm, to: gauge.rate_to_spm, label: 'usable' }];
  return {
    title: 'At which rates strokes are found',
    description: `Share of strokes found when strokes of this strength were laid over the rest of the log: ${found.map(({ rate_spm, found_pct }) => `${numberCell(rate_spm)} spm ${numberCell(found_pct)} %`).join(', ')}.`,
    draw: (width) =>
      drawChart(
        {
          x: RATE_ALONG,
          domain: [found[0]!.rate_spm - 1, found.at(-1)!.rate_spm + 1],
          shades: usable,
          panels: [
            {
              y: FOUND,
              domain: [0, 104],
              height: 160,
              pointer: 0,
              marks: (scales) => [
                acrossMark(least_pct, scales),
                lineMark(samples, 0, scales),
                dotMarks(samples, 0, scales),
              ],
            },
          ],
        },
        width,
      ),
    pointers: [
      {
        x: found.map(({ rate_spm }) => rate_spm),
        shown: {
          rate: found.map(({ rate_spm }) => RATE_ALONG.format(rate_spm)),
          found: found.map(({ found_pct }) => FOUND.format(found_pct)),
        },
      },
    ],
    numbers: {
      title: 'Strokes found by rate',
      columns: [
        { heading: 'rate spm', align: 'right' },
        { heading: 'found %', align: 'right' },
      ],
      rows: found.map(({ rate_spm, found_pct }) => [numberCell(rate_spm), numberCell(found_pct)]),
      notes: [],
    },
    notes: [
      `The share is an F1 score: missed and false strokes both lower it. Across: ${numberCell(least_pct)} %, from which a rate is usable.`,
    ],
  };
};

const spectraPicture = ({ spectra }: DrawnGauge): Picture | null => {
  if (spectra.length < 2) return null;
  const lines = [
    spectra.map(({ hz, rowing_db }): Sample => [hz, rowing_db]),
    spectra.map(({ hz, rest_db }): Sample => [hz, rest_db]),
  ];
  const levels = lines.flatMap((line) => line.flatMap(([, level]) => level ?? []));
  const [low, high] = [Math.min(...levels), Math.max(...levels)];
  return {
    title: 'Rest and strokes, by frequency',
    description: `Power of the surge at rest and under way, from ${numberCell(spectra[0]!.hz, 2)} to ${numberCell(spectra.at(-1)!.hz, 2)} Hz: where strokes stand out from rest, strokes can be found.`,
    draw: (width) =>
      drawChart(
        {
          x: HERTZ,
          domain: [0, spectra.at(-1)!.hz],
          legend: [
            { label: 'under way', look: 'line', series: 0 },
            { label: 'rest', look: 'line', series: 1 },
          ],
          panels: [
            {
              y: LEVEL,
              domain: [low - 2, high + 2],
              height: 170,
              pointer: 0,
              marks: (scales) => [lineMark(lines[1]!, 1, scales), lineMark(lines[0]!, 0, scales)],
            },
          ],
        },
        width,
      ),
    pointers: [
      {
        x: spectra.map(({ hz }) => hz),
        shown: {
          at: spectra.map(({ hz }) => HERTZ.format(hz)),
          rowing: spectra.map(({ rowing_db }) => LEVEL.format(rowing_db)),
          rest: spectra.map(({ rest_db }) => LEVEL.format(rest_db)),
        },
      },
    ],
    numbers: {
      title: 'Power by frequency',
      columns: [
        { heading: 'Hz', align: 'right' },
        { heading: 'under way dB', align: 'right' },
        { heading: 'rest dB', align: 'right' },
      ],
      rows: spectra.map(({ hz, rowing_db, rest_db }) => [
        numberCell(hz, 2),
        numberCell(rowing_db, 1),
        numberCell(rest_db, 1),
      ]),
      notes: [],
    },
    notes: [
      'Strokes at 24 spm come 0.4 times a second, at 36 spm 0.6 times; their shape makes multiples of it.',
    ],
  };
};

/** The pictures of `thole gauge`; none where there is nothing to gauge. */
export const gaugePictures = (result: GaugeResult): readonly Picture[] =>
  result.drawn === undefined
    ? []
    : [foundPicture(result, result.drawn), spectraPicture(result.drawn)].filter(
        (picture) => picture !== null,
      );
