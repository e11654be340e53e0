import {
  groupRow,
  heartRateZoneRow,
  monthRow,
  type ProgressTrendRow,
  progressRow,
  progressTrendRow,
  type SeasonBestRow,
  type SeasonResult,
  seasonBandRow,
  seasonBestRow,
  seasonOutingRow,
  type TotalsRow,
  weekRow,
} from '../contract/season.js';
import {
  cell,
  clockCell,
  clockWithSd,
  dateCell,
  distanceCell,
  numberCell,
  speedCell,
  speedColumn,
  speedUnit,
  UNKNOWN,
} from './cells.js';
import { bandName, bandsSection } from './outing.js';
import { facts, figures, type Reading, type Section, words } from './section.js';
import { SPEED_OVER } from './speed-over.js';
import { flat, type View } from './view.js';

/** The lists of a season that can be written as rows. */
export const SEASON_ROWS = [
  'weeks',
  'months',
  'outings',
  'bests',
  'groups',
  'bands',
  'progress',
  'trends',
  'zones',
] as const;
export type SeasonRows = (typeof SEASON_ROWS)[number];

const KEYS: Readonly<Record<SeasonRows, readonly string[]>> = {
  weeks: Object.keys(weekRow.omit({ rate_bands: true }).shape),
  months: Object.keys(monthRow.shape),
  outings: Object.keys(seasonOutingRow.shape),
  bests: Object.keys(seasonBestRow.shape),
  groups: Object.keys(groupRow.omit({ rate_bands: true }).shape),
  progress: Object.keys(progressRow.shape),
  trends: Object.keys(progressTrendRow.omit({ levels: true, points: true }).shape),
  zones: Object.keys(heartRateZoneRow.shape),
  bands: ['week', ...Object.keys(seasonBandRow.shape)],
};

/** The rows of a list; of the rate bands those of each week. */
const rowsOf = (list: SeasonRows, result: SeasonResult): readonly object[] => {
  if (list === 'bands')
    return result.weeks.flatMap(({ week, rate_bands }) => rate_bands.map((band) => ({ week, ...band })));
  if (list === 'trends') return result.progress_trends.map(({ levels: _, points: __, ...trend }) => trend);
  if (list === 'zones') return result.heart_rate_zones ?? [];
  return result[list];
};

const hours = (seconds: number): string => `${numberCell(seconds / 3600, 1)} h`;

const kilometres = (metres: number): string => `${numberCell(metres / 1000, 1)} km`;

const totalsFacts = (result: SeasonResult, reading: Reading): Section => {
  const { totals, land_totals, longest, since, until } = result;
  return facts('Season', [
    ['counted', since === null && until === null ? 'all' : `${since ?? '…'} to ${until ?? '…'}`],
    ['outings', String(totals.outing_count)],
    ['distance', kilometres(totals.distance_m)],
    ['time', hours(totals.rowing_s)],
    ['strokes', String(totals.stroke_count)],
    [
      'longest outing',
      longest === null
        ? UNKNOWN
        : `${distanceCell(longest.distance_m)}, ${dateCell(longest.start_time, reading)}`,
    ],
    ...(land_totals.outing_count === 0
      ? []
      : [
          [
            'on land, not in the sums',
            `${land_totals.outing_count} session${land_totals.outing_count === 1 ? '' : 's'}, ${hours(land_totals.rowing_s)}, ${land_totals.stroke_count} strokes`,
          ] as const,
        ]),
    ...keptOutFacts(result),
  ]);
};

const sums = (
  title: string,
  heading: string,
  rows: readonly (TotalsRow & { readonly name: string })[],
): Section[] =>
  rows.length === 0
    ? []
    : [
        {
          title,
          columns: [
            words(heading),
            figures('outings'),
            figures('distance'),
            figures('time'),
            figures('strokes'),
          ],
          rows: rows.map((row) => [
            row.name,
            String(row.outing_count),
            kilometres(row.distance_m),
            hours(row.rowing_s),
            String(row.stroke_count),
          ]),
          notes: [],
        },
      ];

/** Rate bands of several outings: what few loggers measure is left out where none did. */
const seasonBands = (title: string, bands: SeasonResult['rate_bands']): Section[] => {
  if (bands.length === 0) return [];
  const section = bandsSection(bands);
  const columns = section.columns.map((column, i) =>
    i < section.columns.length - 2 ? column : { ...column, whereKnown: true as const },
  );
  return [{ ...section, title, columns }];
};

/** How the strokes of each week are spread over the rates. */
const weekBandsSection = (result: SeasonResult): Section[] => {
  const { rate_bands } = result;
  const weeks = result.weeks.filter(({ stroke_count }) => stroke_count > 0);
  const bands = rate_bands.filter(({ from_spm, to_spm }) => from_spm !== null || to_spm !== null);
  if (weeks.length < 2 || bands.length < 2) return [];
  return [
    {
      title: 'Rate bands by week, share of the strokes (rate is not intensity)',
      columns: [words('week'), ...bands.map((band) => figures(bandName(band)))],
      rows: weeks.map((row) => [
        row.week,
        ...bands.map(({ from_spm, to_spm }) => {
          const own = row.rate_bands.find((band) => band.from_spm === from_spm && band.to_spm === to_spm);
          return own === undefined ? UNKNOWN : cell(own.share_pct, (share) => `${numberCell(share)} %`);
        }),
      ]),
      notes: [],
    },
  ];
};

const asked = ({ asked_m, asked_s }: SeasonBestRow): string =>
  asked_m === undefined ? cell(asked_s, (seconds) => `${seconds / 60} min`) : `${asked_m} m`;

/** Who rowed in what, as far as it is named. */
const crewAndCraft = ({
  crew,
  craft,
}: {
  readonly crew: string | null;
  readonly craft: string | null;
}): string => `${crew ?? 'crew not named'}, ${craft ?? 'craft not named'}`;

const bestsSections = (bests: readonly SeasonBestRow[], reading: Reading): Section[] => {
  const groups = [...new Set(bests.map(crewAndCraft))];
  return groups.map((group, i) => ({
    title: `Bests: ${group}`,
    columns: [
      figures('over'),
      words('of'),
      figures('time'),
      figures('distance'),
      figures('rate'),
      words('when'),
    ],
    rows: bests
      .filter((row) => crewAndCraft(row) === group)
      .map((row) => [
        asked(row),
        row.piece === null ? row.kind : `piece ${row.piece}`,
        clockWithSd(row.duration_s, row.duration_sd_s),
        distanceCell(row.distance_m),
        numberCell(row.rate_spm, 1),
        dateCell(row.start_time, reading),
      ]),
    notes:
      i < groups.length - 1
        ? []
        : [
            'A best stretch is the fastest of many, so it comes out a little fast; ± is one standard deviation. A whole piece counts for a length within 2 % of it. Crafts are not held against one another.',
          ],
  }));
};

const PROGRESS_VERDICTS = { faster: 'faster', slower: 'slower', not_shown: 'not shown' } as const;

const signed = (pct: number | null, decimals: number): string =>
  cell(pct, (value) => `${value > 0 ? '+' : ''}${numberCell(value, decimals)}`);

const levelsSection = (trend: ProgressTrendRow, reading: Reading): Section => {
  const unit = speedUnit(reading, trend.craft);
  const over = SPEED_OVER[trend.speed_over];
  return {
    title: `Speed at like rate, ${over}: ${crewAndCraft(trend)}`,
    columns: [words('rates'), figures('outings'), figures('at rate'), speedColumn(unit), figures('m/stroke')],
    rows: trend.levels.map((level) => [
      bandName(level),
      String(level.outing_count),
      numberCell(level.usual_rate_spm, 1),
      speedCell(level.speed_mps, unit),
      numberCell(level.distance_per_stroke_m, 2),
    ]),
    notes: [],
  };
};

/** Whether crews got faster, crew by crew. */
const progressSections = ({ progress_trends: trends }: SeasonResult, reading: Reading): Section[] => {
  if (trends.length === 0) return [];
  const published = trends.some(({ day_sd_by }) => day_sd_by === 'published');
  return [
    {
      title: 'Progress: speed at like rate, percent a month',
      columns: [
        words('crew'),
        words('craft'),
        figures('days'),
        figures('% a month'),
        figures('98 % interval'),
        words('verdict'),
        figures('shown from'),
        figures('day ± %'),
      ],
      rows: trends.map((trend) => [
        trend.crew ?? 'not named',
        trend.craft ?? UNKNOWN,
        String(trend.day_count),
        signed(trend.change_pct_per_month, 2),
        trend.change_low_pct_per_month === null
          ? UNKNOWN
          : `${signed(trend.change_low_pct_per_month, 2)} to ${signed(trend.change_high_pct_per_month, 2)}`,
        trend.verdict === null ? 'not known' : PROGRESS_VERDICTS[trend.verdict],
        numberCell(trend.smallest_shown_pct_per_month, 2),
        numberCell(trend.day_sd_pct, 1),
      ]),
      notes: [
        `A change is claimed where the 98 % interval leaves out no change; four of five seasons like these would show one from "shown from" on. Day ±: how much one day differs from another by wind, stream, water and crew${published ? ', of these outings or, under eight days, as published (1.0 % the crew, 3.0 % conditions)' : ', as these outings show it'}.`,
      ],
    },
    ...trends.map((trend) => levelsSection(trend, reading)),
  ];
};

/** How many logs are in no sum, and why. */
const KEPT_OUT = {
  other_sport: 'of another sport',
  same_outing: 'of an outing that another log holds',
  no_clock: 'without a clock',
} as const;

const keptOutFacts = ({ outings }: SeasonResult): (readonly [string, string])[] => {
  const said = Object.entries(KEPT_OUT).flatMap(([why, name]) => {
    const count = outings.filter(({ kept_out }) => kept_out === why).length;
    return count === 0 ? [] : [`${count} ${name}`];
  });
  return said.length === 0 ? [] : [['not counted', said.join(', ')]];
};

const zonesSection = ({ heart_rate_zones, polarization_index }: SeasonResult): Section[] =>
  heart_rate_zones === null
    ? []
    : [
        {
          title: 'Heart-rate zones during work, where heart rate is logged',
          columns: [words('bpm'), figures('time'), figures('share')],
          rows: heart_rate_zones.map(({ from_bpm, to_bpm, duration_s, share_pct }) => [
            from_bpm === null
              ? `below ${to_bpm}`
              : to_bpm === null
                ? `${from_bpm} and over`
                : `${from_bpm} to ${to_bpm}`,
            clockCell(duration_s),
            cell(share_pct, (share) => `${numberCell(share, 1)} %`),
          ]),
          notes:
            polarization_index === null
              ? []
              : [`Polarization index ${numberCell(polarization_index, 2)}; above 2.00 is called polarized.`],
        },
      ];

/** `thole season`; `list` is what CSV and NDJSON write as rows. */
export const seasonView = (list: SeasonRows): View<SeasonResult> => ({
  pictures: async () => (await import('./pictures/season.js')).seasonPictures,
  keys: KEYS[list],
  rows: (result) => rowsOf(list, result),
  cells: (result) => rowsOf(list, result).map((row) => flat(row)),
  sections: (result, reading) => [
    totalsFacts(result, reading),
    ...sums(
      'Groups',
      'group',
      result.groups.map((row) => ({ ...row, name: row.group ?? 'not known' })),
    ),
    ...sums(
      'Weeks',
      'week',
      result.weeks.map((row) => ({ ...row, name: row.week })),
    ),
    ...sums(
      'Months',
      'month',
      result.months.map((row) => ({ ...row, name: row.month })),
    ),
    ...seasonBands('Rate bands (rate is not intensity)', result.rate_bands),
    ...(result.last === null
      ? []
      : seasonBands(
          result.last.outing_count === 1
            ? 'Rate bands of the last outing (rate is not intensity)'
            : `Rate bands of the last ${result.last.outing_count} outings (rate is not intensity)`,
          result.last.rate_bands,
        )),
    ...weekBandsSection(result),
    ...progressSections(result, reading),
    ...bestsSections(result.bests, reading),
    ...zonesSection(result),
  ],
});
