import type { SeasonResult } from '../../contract/season.js';
import { dateCell } from '../cells.js';
import { drawChart } from '../drawing/chart.js';
import { dotMarks, type Sample, stairMark } from '../drawing/marks.js';
import type { Picture } from '../drawing/picture.js';
import { dateQuantity, plainQuantity } from '../drawing/quantity.js';
import type { Reading, Section } from '../section.js';

const KILOMETRES = plainQuantity('km, total', 'km', 1);

const numbersOf = (drawn: NonNullable<SeasonResult['drawn']>, reading: Reading): Section => ({
  title: 'Distance added up',
  columns: [
    { heading: 'outing of', align: 'left' },
    { heading: 'km so far', align: 'right' },
  ],
  rows: drawn.map(({ start_time, total_m }) => [
    dateCell(start_time, reading),
    KILOMETRES.format(total_m / 1000),
  ]),
  notes: [],
});

/** Distance of a season added up, outing by outing; null where fewer than two outings have a date. */
export const seasonDistance = ({ drawn = [] }: SeasonResult, reading: Reading): Picture | null => {
  const [first, last] = [drawn[0], drawn.at(-1)];
  if (first === undefined || last === undefined || drawn.length < 2) return null;
  const samples = drawn.map(({ start_time, total_m }): Sample => [Date.parse(start_time), total_m / 1000]);
  const dates = dateQuantity(reading);
  return {
    title: 'Distance added up',
    description: `Kilometres since ${dateCell(first.start_time, reading)}, growing with each of ${drawn.length} outings to ${KILOMETRES.format(last.total_m / 1000)}.`,
    draw: (width) =>
      drawChart(
        {
          x: dates,
          domain: [samples[0]![0], samples.at(-1)![0]],
          panels: [
            {
              y: KILOMETRES,
              domain: [0, (last.total_m / 1000) * 1.04],
              height: 140,
              pointer: 0,
              marks: (scales) => [
                stairMark([[samples[0]![0], 0], ...samples], 0, scales),
                ...(drawn.length > 60 ? [] : [dotMarks(samples, 0, scales, 'small')]),
              ],
            },
          ],
        },
        width,
      ),
    pointers: [
      {
        x: samples.map(([at]) => at),
        shown: {
          outing: drawn.map(({ start_time }) => dateCell(start_time, reading)),
          total: samples.map(([, km]) => KILOMETRES.format(km!)),
        },
      },
    ],
    numbers: numbersOf(drawn, reading),
    notes: ['What an outing does not tell adds nothing.'],
  };
};
