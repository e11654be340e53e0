import type { ProgressTrendRow, SeasonResult } from '../../contract/season.js';
import { dateCell, numberCell } from '../cells.js';
import { drawChart } from '../drawing/chart.js';
import { acrossMark, dotMarks, errorMarks, lineMark, type Sample } from '../drawing/marks.js';
import type { Picture } from '../drawing/picture.js';
import { dateQuantity, plainQuantity } from '../drawing/quantity.js';
import { domainOf } from '../drawing/scale.js';
import type { Reading } from '../section.js';

const DIFFERENCE = plainQuantity('% faster than the usual of the season', '%', 1);

/** Crews of one page that are drawn; the table has all. */
const MOST = 12;

type Point = ProgressTrendRow['points'][number] & { readonly start_time: string };

const signed = (pct: number): string => `${pct > 0 ? '+' : ''}${numberCell(pct, 1)} %`;

const VERDICTS = { faster: 'faster', slower: 'slower', not_shown: 'no change shown' } as const;

const pictureOf = (trend: ProgressTrendRow, reading: Reading): Picture | null => {
  const points = trend.points.filter((point): point is Point => point.start_time !== null);
  if (points.length < 2) return null;
  const at = ({ start_time }: Point) => Date.parse(start_time);
  const spans = points.map((point) => ({
    x: at(point),
    low: point.difference_pct - point.difference_sd_pct,
    high: point.difference_pct + point.difference_sd_pct,
  }));
  const line = points.map((point): Sample => [at(point), point.trend_pct]);
  const name = [trend.crew, trend.craft].filter((part) => part !== null).join(', ') || 'crew not known';
  const dates = dateQuantity(reading);
  const low = Math.min(...points.map(at));
  const high = Math.max(...points.map(at));
  const room = (high - low) * 0.02;
  const change =
    trend.change_pct_per_month === null
      ? ''
      : ` Trend ${signed(trend.change_pct_per_month)} a month${trend.change_low_pct_per_month === null || trend.change_high_pct_per_month === null ? '' : ` (98 %: ${signed(trend.change_low_pct_per_month)} to ${signed(trend.change_high_pct_per_month)})`}.`;
  const verdict = trend.verdict === null ? '' : ` ${VERDICTS[trend.verdict]}.`;
  return {
    title: `Speed at like rate over the season: ${name}`,
    description: `How much faster each of ${points.length} outings was than the season's usual at the same rate, with one standard deviation.${change}${verdict}`,
    draw: (width) =>
      drawChart(
        {
          x: dates,
          domain: [low - room, high + room],
          legend: [
            { label: 'outing, ± one sd', look: 'dot', series: 0 },
            ...(trend.change_pct_per_month === null
              ? []
              : [{ label: 'trend', look: 'line', series: 1 } as const]),
          ],
          panels: [
            {
              y: DIFFERENCE,
              domain: domainOf([0, ...spans.flatMap((span) => [span.low, span.high])], { least: 2 }),
              height: 170,
              pointer: 0,
              marks: (scales) => [
                acrossMark(0, scales, 'zero'),
                errorMarks(spans, 0, scales),
                lineMark(line, 1, scales, 'bold'),
                dotMarks(
                  points.map((point): Sample => [at(point), point.difference_pct]),
                  0,
                  scales,
                ),
              ],
            },
          ],
        },
        width,
      ),
    pointers: [
      {
        x: points.map(at),
        shown: {
          outing: points.map(({ start_time }) => dateCell(start_time, reading)),
          faster: points.map(
            ({ difference_pct, difference_sd_pct }) =>
              `${signed(difference_pct)} ±${numberCell(difference_sd_pct, 1)}`,
          ),
        },
      },
    ],
    numbers: {
      title: 'Speed at like rate, outing by outing',
      columns: [
        { heading: 'outing of', align: 'left' },
        { heading: 'faster %', align: 'right' },
        { heading: '± %', align: 'right' },
      ],
      rows: points.map((point) => [
        dateCell(point.start_time, reading),
        signed(point.difference_pct),
        numberCell(point.difference_sd_pct, 1),
      ]),
      notes: [],
    },
    notes: [
      `The ± holds how one day differs from another (wind, stream, water), ${numberCell(trend.day_sd_pct, 1)} %.${change}${verdict}`,
    ],
  };
};

/** Speed at like rate over the season, one picture for each crew in each craft that has a trend or two outings. */
export const seasonProgress = ({ progress_trends }: SeasonResult, reading: Reading): readonly Picture[] =>
  progress_trends.flatMap((trend) => pictureOf(trend, reading) ?? []).slice(0, MOST);
