import {
  groupRow,
  monthRow,
  type SeasonBestRow,
  type SeasonResult,
  seasonBandRow,
  seasonBestRow,
  seasonOutingRow,
  type TotalsRow,
  weekRow,
} from '../contract/season.js';
import { cell, clockCell, clockWithSd, dateCell, distanceCell, numberCell, UNKNOWN } from './cells.js';
import { bandName, bandsSection } from './outing.js';
import { facts, figures, type Reading, type Section, words } from './section.js';
import { flat, type View } from './view.js';

/** The lists of a season that can be written as rows. */
export const SEASON_ROWS = ['weeks', 'months', 'outings', 'bests', 'groups', 'bands'] as const;
export type SeasonRows = (typeof SEASON_ROWS)[number];

const KEYS: Readonly<Record<SeasonRows, readonly string[]>> = {
  weeks: Object.keys(weekRow.omit({ rate_bands: true }).shape),
  months: Object.keys(monthRow.shape),
  outings: Object.keys(seasonOutingRow.shape),
  bests: Object.keys(seasonBestRow.shape),
  groups: Object.keys(groupRow.omit({ rate_bands: true }).shape),
  bands: ['week', ...Object.keys(seasonBandRow.shape)],
};

/** The rows of a list; of the rate bands those of each week. */
const rowsOf = (list: SeasonRows, result: SeasonResult): readonly object[] =>
  list === 'bands'
    ? result.weeks.flatMap(({ week, rate_bands }) => rate_bands.map((band) => ({ week, ...band })))
    : result[list];

const hours = (seconds: number): string => `${numberCell(seconds / 3600, 1)} h`;

const kilometres = (metres: number): string => `${numberCell(metres / 1000, 1)} km`;

const totalsFacts = (
  { totals, land_totals, longest, since, until }: SeasonResult,
  reading: Reading,
): Section =>
  facts('Season', [
    ['counted', since === null && until === null ? 'all' : `${since ?? '…'} to ${until ?? '…'}`],
    ['outings', String(totals.outing_count)],
    ['rowed', kilometres(totals.distance_m)],
    ['rowing', hours(totals.rowing_s)],
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
  ]);

const sums = (
  title: string,
  heading: string,
  rows: readonly (TotalsRow & { readonly name: string | null })[],
): Section[] =>
  rows.length === 0
    ? []
    : [
        {
          title,
          columns: [
            words(heading),
            figures('outings'),
            figures('rowed'),
            figures('rowing'),
            figures('strokes'),
          ],
          rows: rows.map((row) => [
            row.name ?? 'no date',
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
        row.week ?? 'no date',
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

const bestsSection = (bests: readonly SeasonBestRow[], reading: Reading): Section => {
  const several = new Set(bests.map(({ crew, file }) => crew ?? file)).size > 1;
  return {
    title: 'Bests',
    columns: [
      figures('over'),
      words('of'),
      figures('time'),
      figures('distance'),
      figures('rate'),
      words('when'),
      ...(several ? [words('crew or log')] : []),
    ],
    rows: bests.map((row) => [
      asked(row),
      row.kind,
      clockWithSd(row.duration_s, row.duration_sd_s),
      distanceCell(row.distance_m),
      numberCell(row.rate_spm, 1),
      dateCell(row.start_time, reading),
      ...(several ? [row.crew ?? row.file] : []),
    ]),
    notes: [
      'A best stretch is the best of many windows, so it is a little lucky; ± is one standard deviation. A whole piece counts for a length within 2 % of it.',
    ],
  };
};

const zonesSection = ({ heart_rate_zones, polarization_index }: SeasonResult): Section[] =>
  heart_rate_zones === null
    ? []
    : [
        {
          title: 'Heart-rate zones, while rowing, where heart rate is logged',
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
              : [
                  `Polarization index ${numberCell(polarization_index, 2)}; above 2.00 is called polarized (Treff and others, 2019).`,
                ],
        },
      ];

/** `thole season`; `list` is what CSV and NDJSON write as rows. */
export const seasonView = (list: SeasonRows): View<SeasonResult> => ({
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
    ...(result.bests.length === 0 ? [] : [bestsSection(result.bests, reading)]),
    ...zonesSection(result),
  ],
});
