import type { OutingRow, RateBandRow } from '../../contract/outing.js';
import { clockCell, numberCell } from '../cells.js';
import { drawChart } from '../drawing/chart.js';
import { boxMark, wordsMark } from '../drawing/marks.js';
import type { Picture } from '../drawing/picture.js';
import { plainQuantity, type Quantity, TICK_ROOM } from '../drawing/quantity.js';
import { bandName } from '../outing.js';

const MINUTES: Quantity = plainQuantity('minutes of work', 'min', 1, TICK_ROOM.along);
const BANDS: Quantity = plainQuantity('rate spm', 'spm', 0);

/** Height of a bar and room from bar to bar, px. */
const BAR_PX = 26;

/** Time in each rate band, as bars; null where no stroke has a rate. */
export const outingBands = ({ rate_bands }: OutingRow): Picture | null => {
  const bands = rate_bands.filter(({ from_spm, to_spm }) => from_spm !== null || to_spm !== null);
  const most = Math.max(0, ...bands.map(({ rowing_s }) => rowing_s)) / 60;
  if (most === 0) return null;
  const labelOf = ({ rowing_s, share_pct }: RateBandRow) =>
    `${clockCell(rowing_s)}, ${numberCell(share_pct)} %`;
  return {
    title: 'How long at which rate',
    description: `Bars of time by rate band: ${bands.map((band) => `${bandName(band)} spm ${labelOf(band)} of the strokes`).join('; ')}.`,
    draw: (width) =>
      drawChart(
        {
          x: MINUTES,
          domain: [0, most],
          leftPx: 86,
          rightPx: 92,
          panels: [
            {
              y: BANDS,
              // The lowest band stands at the top, as in the table.
              domain: [bands.length, 0],
              height: bands.length * BAR_PX,
              bare: true,
              outside: (scales) =>
                bands.flatMap((band, i) => [
                  wordsMark([0, i + 0.5], bandName(band), scales, { anchor: 'end', dx: -6, dy: 4 }),
                  wordsMark([band.rowing_s / 60, i + 0.5], labelOf(band), scales, { dx: 6, dy: 4 }),
                ]),
              marks: (scales) =>
                bands.map((band, i) => boxMark([0, i + 0.18], [band.rowing_s / 60, i + 0.82], 'bar', scales)),
            },
          ],
        },
        width,
      ),
    pointers: [],
    numbers: null,
    notes: ['Rate is not intensity: a heavy boat at a low rate can be hard work.'],
  };
};
