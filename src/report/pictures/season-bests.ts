import type { SeasonBestRow, SeasonResult } from '../../contract/season.js';
import { clockWithSd, dateCell, speedUnit } from '../cells.js';
import { drawChart } from '../drawing/chart.js';
import { dotMarks, wordsMark } from '../drawing/marks.js';
import type { Picture } from '../drawing/picture.js';
import { plainQuantity, speedQuantity, TICK_ROOM } from '../drawing/quantity.js';
import { domainOf } from '../drawing/scale.js';
import type { Reading } from '../section.js';

const PLACE = plainQuantity('', '', 0);

/** Height of one best, px. */
const BEST_PX = 24;

/** Bests that one picture can hold; the table has all. */
const MOST = 24;

const lengthOf = ({ asked_m, asked_s }: SeasonBestRow): string =>
  asked_m === undefined ? `${(asked_s ?? 0) / 60} min` : `${asked_m} m`;

const nameOf = (row: SeasonBestRow): string =>
  [lengthOf(row), row.craft].filter((part) => part !== null).join(', ');

/** Bests by their speed, the fastest of each length and crew; null where there are none. */
export const seasonBestsPicture = ({ bests: all }: SeasonResult, reading: Reading): Picture | null => {
  const bests = all.slice(0, MOST);
  if (bests.length === 0) return null;
  const unit = speedUnit(reading, bests[0]!.craft);
  const speed = speedQuantity(unit, TICK_ROOM.along);
  const speeds = bests.map(({ distance_m, duration_s }) => distance_m / duration_s);
  return {
    title: 'Bests of the season',
    description: bests
      .map(
        (row) =>
          `${nameOf(row)} ${row.kind}: ${clockWithSd(row.duration_s, row.duration_sd_s)}, ${dateCell(row.start_time, reading)}`,
      )
      .join('; '),
    draw: (width) =>
      drawChart(
        {
          x: { ...speed, heading: `faster to the right, ${speed.heading}` },
          domain: domainOf(speeds, { room: 0.08, least: 0.3 }),
          leftPx: 92,
          rightPx: 96,
          legend: [
            { label: 'stretch of any work', look: 'dot', series: 0 },
            { label: 'whole piece', look: 'dot', series: 1 },
          ],
          panels: [
            {
              y: PLACE,
              title: '',
              domain: [bests.length, 0],
              height: bests.length * BEST_PX,
              bare: true,
              marks: (scales) =>
                bests.map((row, i) =>
                  dotMarks([[speeds[i]!, i + 0.5]], row.kind === 'stretch' ? 0 : 1, scales),
                ),
              outside: (scales) =>
                bests.flatMap((row, i) => [
                  wordsMark([scales.x.domain[0], i + 0.5], nameOf(row), scales, {
                    anchor: 'end',
                    dx: -6,
                    dy: 4,
                  }),
                  wordsMark(
                    [scales.x.domain[1], i + 0.5],
                    clockWithSd(row.duration_s, row.duration_sd_s),
                    scales,
                    {
                      dx: 6,
                      dy: 4,
                    },
                  ),
                ]),
            },
          ],
        },
        width,
      ),
    pointers: [],
    numbers: null,
    notes: [
      'At the right the time of each. A best stretch is the best of many, so a little of it is chance.',
      ...(all.length > bests.length ? [`Drawn are the first ${bests.length} of ${all.length}.`] : []),
    ],
  };
};
