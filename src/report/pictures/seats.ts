import type { MarginRow, SeatsResult, SwapRow } from '../../contract/seats.js';
import { grouped } from '../../units/grouped.js';
import { numberCell } from '../cells.js';
import { drawChart } from '../drawing/chart.js';
import {
  acrossMark,
  dotMarks,
  errorMarks,
  type Sample,
  sideErrorMarks,
  uprightMark,
  wordsMark,
} from '../drawing/marks.js';
import type { Picture } from '../drawing/picture.js';
import { countQuantity, plainQuantity, signedSeconds, TICK_ROOM } from '../drawing/quantity.js';
import { domainOf } from '../drawing/scale.js';

const AHEAD = signedSeconds('s ahead');
const PLACE = plainQuantity('', '', 0);

/** Height of one swap, px. */
const SWAP_PX = 46;

/** How a swap is believed: beyond so many of its standard deviations, as the table says. */
const SURE_SDS = 2.5;

const marginPicture = (rows: readonly MarginRow[]): Picture => {
  const { boat, other_boat } = rows[0]!;
  const spans = rows.map(({ margin_s, margin_sd_s }, i) => ({
    x: i + 1,
    low: margin_s - margin_sd_s,
    high: margin_s + margin_sd_s,
  }));
  const ends = spans.flatMap(({ low, high }) => [low, high]);
  return {
    title: `${boat} beside ${other_boat}, piece by piece`,
    description: `Seconds that ${boat} was ahead of ${other_boat} in each piece, with one standard deviation: ${rows.map(({ piece, margin_s, margin_sd_s }) => `${piece} ${AHEAD.format(margin_s)} ±${numberCell(margin_sd_s, 1)}`).join('; ')}.`,
    draw: (width) =>
      drawChart(
        {
          x: countQuantity(`pieces in the order of the table: ${rows.map(({ piece }) => piece).join(', ')}`),
          domain: [0.5, rows.length + 0.5],
          panels: [
            {
              y: AHEAD,
              title: `s that ${boat} is ahead`,
              domain: domainOf([0, ...ends], { room: 0.1, least: 1 }),
              height: 150,
              marks: (scales) => [
                acrossMark(0, scales, 'zero'),
                errorMarks(spans, 0, scales),
                dotMarks(
                  rows.map(({ margin_s }, i): Sample => [i + 1, margin_s]),
                  0,
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
    notes: [],
  };
};

const labelOf = ({ swap, people, against }: SwapRow): string =>
  `${swap}. ${people.join(' and ')} rather than ${against.join(' and ')}`;

const swapsPicture = (swaps: readonly SwapRow[]): Picture => {
  const bars = swaps.map(({ worth_s, worth_sd_s }, i) => ({
    y: i + 0.66,
    low: worth_s - SURE_SDS * worth_sd_s,
    high: worth_s + SURE_SDS * worth_sd_s,
  }));
  return {
    title: 'What each swap was worth to a boat',
    description: swaps
      .map(
        (row) =>
          `${labelOf(row)}: ${AHEAD.format(row.worth_s)} ±${numberCell(row.worth_sd_s, 1)}, ${row.shown ? 'shown' : 'inside the noise'}`,
      )
      .join('; '),
    draw: (width) =>
      drawChart(
        {
          x: {
            ...AHEAD,
            heading: 's faster, over the length of the table',
            ticks: (domain, length) => plainQuantity('', '', 1, TICK_ROOM.along).ticks(domain, length),
          },
          domain: domainOf([0, ...bars.flatMap(({ low, high }) => [low, high])], { room: 0.08, least: 1 }),
          leftPx: 14,
          panels: [
            {
              y: PLACE,
              domain: [swaps.length, 0],
              height: swaps.length * SWAP_PX,
              bare: true,
              marks: (scales) => [
                uprightMark(0, scales, 'zero'),
                ...bars.map((bar, i) => sideErrorMarks([bar], swaps[i]!.shown ? 0 : 4, scales)),
                ...swaps.map(({ worth_s, shown }, i) =>
                  dotMarks([[worth_s, i + 0.66]], shown ? 0 : 4, scales),
                ),
                ...swaps.map((row, i) =>
                  wordsMark([scales.x.domain[0], i + 0.3], labelOf(row), scales, { dx: 6, dy: 4 }),
                ),
              ],
            },
          ],
        },
        width,
      ),
    pointers: [],
    numbers: null,
    notes: [
      'A bar reaches 2.5 standard deviations to either side: a swap shows where it does not touch the line at 0. Round: shown; other: inside the noise. No order of merit follows.',
    ],
  };
};

/** The pictures of `thole seats`: margins boat beside boat, and each swap on its own. */
export const seatsPictures = ({ margins, swaps }: SeatsResult): readonly Picture[] => {
  const pairs = grouped(margins, (row) => JSON.stringify([row.boat, row.other_boat]));
  return [...[...pairs.values()].map(marginPicture), ...(swaps.length === 0 ? [] : [swapsPicture(swaps)])];
};
