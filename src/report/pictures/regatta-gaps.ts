import type { GapRow, RegattaResult, RegattaRow } from '../../contract/regatta.js';
import { numberCell } from '../cells.js';
import { drawChart } from '../drawing/chart.js';
import type { LegendItem } from '../drawing/legend.js';
import { acrossMark, errorMarks, lineMark, type Sample, type Span } from '../drawing/marks.js';
import { SERIES_COUNT } from '../drawing/palette.js';
import type { Picture, Pointer } from '../drawing/picture.js';
import { plainQuantity, signedSeconds, TICK_ROOM } from '../drawing/quantity.js';
import { domainOf } from '../drawing/scale.js';

const BEHIND = signedSeconds('s behind');
const COURSE = plainQuantity('m of the course', 'm', 0, TICK_ROOM.along);

/** Where values are shown to who points at the picture, metres apart. */
const SHOWN_EVERY_M = 50;

/** Metres farther apart than this are not joined: nothing is known between them. */
const JOINED_M = 10;

/** Columns that the lines of crews without a name are thinned by, px; 8 to 16: 200 of them make half a megabyte. */
const FAINT_COLUMN_PX = 10;

const samplesOf = ({ metres, marks }: GapRow): Sample[] =>
  metres.length > 1
    ? metres.flatMap(({ along_m, gap_s }, i): Sample[] => {
        const before = metres[i - 1];
        const sample: Sample = [along_m, gap_s];
        return before !== undefined && along_m - before.along_m > JOINED_M
          ? [[along_m, null], sample]
          : [sample];
      })
    : marks.map(({ along_m, gap_s }): Sample => [along_m, gap_s]);

const spansOf = ({ marks }: GapRow): Span[] =>
  marks.flatMap(({ along_m, gap_s, gap_sd_s }) =>
    gap_s === null || gap_sd_s === null || along_m === 0
      ? []
      : [{ x: along_m, low: gap_s - gap_sd_s, high: gap_s + gap_sd_s }],
  );

const pointerOf = (gaps: readonly GapRow[]): Pointer => {
  const byCrew = gaps.map(
    ({ crew, metres }) => [crew, new Map(metres.map((at) => [at.along_m, at.gap_s]))] as const,
  );
  const places = [...new Set(gaps.flatMap(({ metres }) => metres.map(({ along_m }) => along_m)))]
    .filter((along) => along % SHOWN_EVERY_M === 0)
    .sort((a, b) => a - b);
  return {
    x: places,
    shown: {
      at: places.map((along) => `${along} m`),
      ...Object.fromEntries(
        byCrew.map(([crew, at]) => [
          crew,
          places.map((along) => (at.has(along) ? BEHIND.format(at.get(along)!) : '–')),
        ]),
      ),
    },
  };
};

/** Crews by their place, those without one last. */
const inOrder = (gaps: readonly GapRow[], rows: readonly RegattaRow[]): GapRow[] => {
  const placeOf = ({ crew }: GapRow) =>
    rows.find((row) => row.crew === crew)?.place ?? Number.POSITIVE_INFINITY;
  return gaps.filter((gap) => samplesOf(gap).length > 1).sort((a, b) => placeOf(a) - placeOf(b));
};

/** Gap of every crew of an event to the winner, or to the crew that was asked for, along the course; null without any. */
export const regattaGaps = (event: string, result: RegattaResult): Picture | null => {
  const all = result.gaps.length > 0 ? result.gaps : (result.drawn_gaps ?? []);
  const rows = result.results.filter((row) => row.event === event);
  const gaps = inOrder(
    all.filter((gap) => gap.event === event),
    rows,
  );
  if (gaps.length === 0) return null;
  const [named, faint] = [gaps.slice(0, SERIES_COUNT), gaps.slice(SERIES_COUNT)];
  const values = gaps.flatMap((gap) => samplesOf(gap).flatMap(([, value]) => value ?? []));
  const ends = named.flatMap(spansOf).flatMap(({ low, high }) => [low, high]);
  const [low, high] = domainOf([0, ...values.reduce(rangeOf, [0, 0]), ...ends]);
  const [{ against }] = gaps as [GapRow];
  const lengthM = Math.max(...gaps.map((gap) => samplesOf(gap).at(-1)![0]));
  const legend: LegendItem[] = [
    ...named.map(({ crew }, i): LegendItem => ({ label: crew, look: 'line', series: i })),
    ...(faint.length === 0
      ? []
      : [{ label: `${faint.length} more`, look: 'line', series: 'faint' } satisfies LegendItem]),
  ];
  const pointed = gaps.length <= SERIES_COUNT && gaps.some(({ metres }) => metres.length > 1);
  return {
    title: `${event}: the gap to ${against}, along the course`,
    description: `Seconds behind ${against} at every metre, one line a crew: ${named
      .map(
        (gap) =>
          `${gap.crew} ${numberCell(samplesOf(gap).at(-1)![1], 1)} s at ${numberCell(samplesOf(gap).at(-1)![0])} m`,
      )
      .join('; ')}.`,
    draw: (width) =>
      drawChart(
        {
          x: COURSE,
          domain: [0, lengthM * 1.01],
          legend,
          panels: [
            {
              y: BEHIND,
              // Ahead is up, as the faster is in every picture.
              domain: [high, low],
              height: 240,
              ...(pointed ? { pointer: 0 } : {}),
              marks: (scales) => [
                acrossMark(0, scales, 'zero'),
                ...faint.map((gap) => lineMark(samplesOf(gap), 4, scales, 'faint', FAINT_COLUMN_PX)),
                ...named.flatMap((gap, i) => [
                  lineMark(samplesOf(gap), i, scales),
                  errorMarks(spansOf(gap), i, scales),
                ]),
              ],
            },
          ],
        },
        width,
      ),
    pointers: pointed ? [pointerOf(gaps)] : [],
    numbers: gapNumbers(gaps),
    notes: [
      `Ahead of ${against} is above the line at 0. Bars at the marks are one standard deviation; between marks it is about as large.${faint.length === 0 ? '' : ` The first ${named.length} crews are named; the table has all.`}`,
    ],
  };
};

const rangeOf = ([low, high]: number[], value: number): number[] => [
  Math.min(low!, value),
  Math.max(high!, value),
];

/** The gaps at the marks. */
const gapNumbers = (gaps: readonly GapRow[]): Picture['numbers'] => {
  const marks = (gaps.find((gap) => gap.marks.length > 0)?.marks ?? []).filter(({ along_m }) => along_m > 0);
  return {
    title: 'Gaps at the marks',
    columns: [
      { heading: 'crew', align: 'left' },
      ...marks.map(({ along_m }) => ({ heading: `at ${numberCell(along_m)} m`, align: 'right' as const })),
    ],
    rows: gaps.map((gap) => [
      gap.crew,
      ...marks.map(({ along_m }) => {
        const mark = gap.marks.find((each) => each.along_m === along_m);
        return mark?.gap_s == null ? '–' : `${BEHIND.format(mark.gap_s)} ±${numberCell(mark.gap_sd_s, 1)}`;
      }),
    ]),
    notes: [],
  };
};
