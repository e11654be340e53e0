import type { ComparedRow } from '../../contract/piece-detail.js';
import type { PiecesResult } from '../../contract/pieces.js';
import type { SpeedUnit } from '../../units/speed.js';
import { numberCell } from '../cells.js';
import { drawChart } from '../drawing/chart.js';
import { acrossMark, dotMarks, errorMarks, type Sample } from '../drawing/marks.js';
import type { Picture } from '../drawing/picture.js';
import { countQuantity, LEAST, plainQuantity, speedQuantity } from '../drawing/quantity.js';
import { domainOf } from '../drawing/scale.js';

const PAIR = countQuantity('pair, in the order of the table');
const DIFFERENCE = plainQuantity('faster now than then, %', '%', 1);

/** Where the dot of the other day stands beside the one of today, as a share of the way to the next pair. */
const BESIDE = 0.16;

const known = (rows: readonly ComparedRow[], value: (row: ComparedRow) => number | null): number[] =>
  rows.flatMap((row) => value(row) ?? []);

/** Then and now, pair by pair, and the difference with ±; null where nothing was compared. */
export const piecesCompared = ({ compared = [] }: PiecesResult, unit: SpeedUnit): Picture | null => {
  const speeds = [
    ...known(compared, ({ speed_mps }) => speed_mps),
    ...known(compared, ({ with_speed_mps }) => with_speed_mps),
  ];
  if (speeds.length < 2) return null;
  const samples = (value: (row: ComparedRow) => number | null, beside: number): Sample[] =>
    compared.map((row, i) => [i + 1 + beside, value(row)]);
  const spans = compared.flatMap(({ difference_pct, difference_sd_pct }, i) =>
    difference_pct === null || difference_sd_pct === null
      ? []
      : [{ x: i + 1, low: difference_pct - difference_sd_pct, high: difference_pct + difference_sd_pct }],
  );
  const differences = known(compared, ({ difference_pct }) => difference_pct);
  return {
    title: 'Then and now',
    description: `Speed of ${compared.length} pairs of pieces, then and now, and by how many percent each was faster now: ${differences.map((pct) => `${numberCell(pct, 1)} %`).join(', ')}.`,
    draw: (width) =>
      drawChart(
        {
          x: PAIR,
          domain: [0.5, compared.length + 0.5],
          legend: [
            { label: 'then', look: 'dot', series: 1 },
            { label: 'now', look: 'dot', series: 0 },
            { label: 'difference, ± one sd', look: 'dot', series: 2 },
          ],
          panels: [
            {
              y: speedQuantity(unit),
              domain: domainOf(speeds, { room: 0.1, least: LEAST.speedMps }),
              height: 120,
              marks: (scales) => [
                dotMarks(
                  samples(({ with_speed_mps }) => with_speed_mps, -BESIDE),
                  1,
                  scales,
                ),
                dotMarks(
                  samples(({ speed_mps }) => speed_mps, BESIDE),
                  0,
                  scales,
                ),
              ],
            },
            {
              y: DIFFERENCE,
              domain: domainOf([0, ...differences, ...spans.flatMap(({ low, high }) => [low, high])], {
                room: 0.1,
                least: 2,
              }),
              height: 120,
              marks: (scales) => [
                acrossMark(0, scales, 'zero'),
                errorMarks(spans, 2, scales),
                dotMarks(
                  samples(({ difference_pct }) => difference_pct, 0),
                  2,
                  scales,
                ),
              ],
            },
          ],
        },
        width,
      ),
    pointers: [],
    numbers: null,
    notes: ['A pair counts as different where its bar, drawn twice as long, does not reach zero.'],
  };
};
