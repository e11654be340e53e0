import type { SeasonResult } from '../../contract/season.js';
import { numberCell } from '../cells.js';
import { drawChart } from '../drawing/chart.js';
import { boxMark } from '../drawing/marks.js';
import type { Picture, Pointer } from '../drawing/picture.js';
import { plainQuantity, type Quantity } from '../drawing/quantity.js';
import { bandName } from '../outing.js';

const HOURS = plainQuantity('hours of work', 'h', 1);

/** Steps of colour that bands can have. */
const STEPS = 5;

type Band = SeasonResult['rate_bands'][number];
type Week = SeasonResult['weeks'][number] & { readonly week: string };

/** Letters of a week's name, px, and the room around it. */
const WEEK_PX = 62;

const weeksQuantity = (weeks: readonly Week[]): Quantity => ({
  heading: 'week',
  ticks: (_, lengthPx) => {
    const every = Math.max(1, Math.ceil((weeks.length * WEEK_PX) / lengthPx));
    return weeks.flatMap(({ week }, i) => (i % every === 0 ? [{ value: i + 0.5, label: week }] : []));
  },
  format: (value) => weeks[Math.floor(value)]?.week ?? '',
});

const hoursOf = (week: Week, band: Band): number =>
  (week.rate_bands.find(({ from_spm, to_spm }) => from_spm === band.from_spm && to_spm === band.to_spm)
    ?.rowing_s ?? 0) / 3600;

/** Less than this of a week is not drawn, h. */
const LEAST_HOURS = 0.01;

/** Hours of a week that no band has. */
const unratedOf = (week: Week, bands: readonly Band[]): number =>
  week.rowing_s / 3600 - bands.reduce((sum, band) => sum + hoursOf(week, band), 0);

/** Colour of a band: from light for low rates to strong for high ones. */
const stepOf = (i: number, count: number): string =>
  `step s${count < 2 ? STEPS : 1 + Math.round((i * (STEPS - 1)) / (count - 1))}`;

const pointerOf = (weeks: readonly Week[], bands: readonly Band[]): Pointer => ({
  x: weeks.map((_, i) => i + 0.5),
  shown: {
    week: weeks.map(({ week }) => week),
    rowing: weeks.map(({ rowing_s }) => HOURS.format(rowing_s / 3600)),
    ...Object.fromEntries(
      bands.map((band) => [`${bandName(band)} spm`, weeks.map((week) => HOURS.format(hoursOf(week, band)))]),
    ),
  },
});

/** Hours of every week, stacked by rate band; null where no week has a date and strokes. */
export const seasonWeeks = ({ weeks: all, rate_bands }: SeasonResult): Picture | null => {
  const weeks = all.filter((week): week is Week => week.week !== null);
  const bands = rate_bands.filter(({ from_spm, to_spm }) => from_spm !== null || to_spm !== null);
  const most = Math.max(0, ...weeks.map(({ rowing_s }) => rowing_s / 3600));
  if (weeks.length === 0 || most === 0) return null;
  return {
    title: 'How much, week by week, and at which rates',
    description: `Hours of work in ${weeks.length} weeks, the hours of each rate band stacked: ${weeks
      .map(({ week, rowing_s }) => `${week} ${HOURS.format(rowing_s / 3600)}`)
      .join(', ')}.`,
    draw: (width) =>
      drawChart(
        {
          x: weeksQuantity(weeks),
          domain: [0, weeks.length],
          legend: [
            ...bands.map((band, i) => ({
              label: `${bandName(band)} spm`,
              look: 'box' as const,
              series: stepOf(i, bands.length),
            })),
            ...(weeks.some((week) => unratedOf(week, bands) > LEAST_HOURS)
              ? [{ label: 'no rate known', look: 'box' as const, series: 'asked' }]
              : []),
          ],
          panels: [
            {
              y: HOURS,
              domain: [0, most * 1.05],
              height: 190,
              pointer: 0,
              marks: (scales) =>
                weeks.flatMap((week, i) => {
                  let top = 0;
                  const parts = bands.map((band, k) => {
                    const hours = hoursOf(week, band);
                    top += hours;
                    return hours === 0
                      ? ''
                      : boxMark([i + 0.12, top - hours], [i + 0.88, top], stepOf(k, bands.length), scales);
                  });
                  return [
                    ...parts,
                    unratedOf(week, bands) > LEAST_HOURS
                      ? boxMark([i + 0.12, top], [i + 0.88, week.rowing_s / 3600], 'asked', scales)
                      : '',
                  ];
                }),
            },
          ],
        },
        width,
      ),
    pointers: [pointerOf(weeks, bands)],
    numbers: {
      title: 'Hours by week and rate band',
      columns: [
        { heading: 'week', align: 'left' },
        { heading: 'work h', align: 'right' },
        ...bands.map((band) => ({ heading: bandName(band), align: 'right' as const })),
      ],
      rows: weeks.map((week) => [
        week.week,
        numberCell(week.rowing_s / 3600, 1),
        ...bands.map((band) => numberCell(hoursOf(week, band), 1)),
      ]),
      notes: [],
    },
    notes: ['Low rates lie at the bottom. Rate is not intensity. Weeks without an outing have no column.'],
  };
};
