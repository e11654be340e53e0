import type { CoursePartRow, MarkRow, RegattaResult, RegattaRow } from '../contract/regatta.js';
import type { SpeedUnit } from '../units/speed.js';
import {
  cell,
  clockCell,
  clockWithSd,
  numberCell,
  speedCell,
  speedColumn,
  speedUnit,
  UNKNOWN,
} from './cells.js';
import { type Column, figures, figuresWhereKnown, type Reading, type Section, words } from './section.js';

const OUTCOMES = {
  finished: '',
  not_finished: 'did not finish',
  not_started: 'did not start',
  excluded: 'excluded',
} as const;

const placeCell = (row: RegattaRow): string => cell(row.place, String);

const timeOf = (row: RegattaRow): string => {
  if (row.outcome === 'finished' && row.duration_s !== null)
    return clockWithSd(row.duration_s, row.duration_sd_s);
  return row.outcome === null ? 'not known' : OUTCOMES[row.outcome] || UNKNOWN;
};

const behind = (seconds: number | null, decimals: number): string =>
  cell(seconds, (known) => `+${numberCell(known, decimals)}`);

/** Speeds, headed as briefly as a table with many columns needs. */
const briefSpeed = (unit: SpeedUnit): Column => (unit === 'split' ? figures('split') : speedColumn(unit));

/** The event, with its craft where all row the same and its name does not say so. */
const titleOf = (event: string, rows: readonly RegattaRow[]): string => {
  const crafts = new Set(rows.map(({ craft }) => craft));
  const [craft] = crafts;
  return crafts.size > 1 || event.includes(craft!) ? event : `${event}, ${craft}`;
};

/** Places, times and margins of the crews of an event. */
export const resultsSection = (event: string, rows: readonly RegattaRow[], reading: Reading): Section => {
  const unit = speedUnit(reading, rows[0]!.craft);
  const mixed = new Set(rows.map(({ craft }) => craft)).size > 1;
  const changed = rows.some(hasChange);
  return {
    title: titleOf(event, rows),
    columns: [
      figures('place'),
      words('crew'),
      ...(mixed ? [words('craft')] : []),
      figures('time'),
      ...(changed ? [figures('result')] : []),
      figures('to 1st'),
      figures('to next'),
      figures('lengths'),
      words('apart'),
      figuresWhereKnown('rate'),
      ...(changed ? [] : [briefSpeed(unit)]),
      figuresWhereKnown('target %'),
    ],
    rows: rows.map((row) => [
      placeCell(row),
      row.crew,
      ...(mixed ? [row.craft] : []),
      timeOf(row),
      ...(changed ? [clockCell(row.result_s, 1)] : []),
      row.place === 1 ? '' : behind(row.margin_winner_s, 1),
      row.place === 1 ? '' : behind(row.margin_ahead_s, 2),
      row.place === 1 ? '' : numberCell(row.margin_ahead_lengths, 1),
      row.separable === null ? '' : row.separable ? 'yes' : 'no',
      numberCell(row.rate_spm, 1),
      ...(changed ? [] : [speedCell(row.speed_mps, unit)]),
      numberCell(row.target_pct, 1),
    ]),
    notes: [],
  };
};

/** Handicaps, penalties and times by hand beside our time; only the crews that have any. */
export const numbersSection = (event: string, rows: readonly RegattaRow[]): Section[] => {
  const concerned = rows.filter((row) => hasChange(row) || row.official_s !== null);
  if (concerned.length === 0) return [];
  return [
    {
      title: `${event}: by the entry list`,
      columns: [
        words('crew'),
        figures('time'),
        figuresWhereKnown('handicap'),
        figuresWhereKnown('penalty'),
        figures('result'),
        figuresWhereKnown('official'),
      ],
      rows: concerned.map((row) => [
        row.crew,
        timeOf(row),
        handicapOf(row),
        cell(row.penalty_s, (known) => `+${numberCell(known, 1)}`),
        clockCell(row.result_s, 1),
        clockCell(row.official_s, 1),
      ]),
      notes: [],
    },
  ];
};

const hasChange = (row: RegattaRow): boolean =>
  row.handicap_s !== null || row.handicap_pct !== null || row.penalty_s !== null;

const handicapOf = ({ handicap_s, handicap_pct }: RegattaRow): string =>
  [
    ...(handicap_s === null ? [] : [`-${numberCell(handicap_s, 1)}`]),
    ...(handicap_pct === null ? [] : [`-${numberCell(handicap_pct, 1)} %`]),
  ].join(' ') || UNKNOWN;

/** Times, places and sections of the crews of an event at each mark. */
export const marksSection = (event: string, rows: readonly RegattaRow[], reading: Reading): Section => {
  const unit = speedUnit(reading, rows[0]!.craft);
  return {
    title: `${event}: at each mark`,
    columns: [
      words('crew'),
      figures('at m'),
      figures('time'),
      figures('place'),
      figures('section'),
      speedColumn(unit),
      figuresWhereKnown('rate'),
    ],
    rows: rows.flatMap((row) => row.marks.map((mark) => [row.crew, ...markCells(mark, unit)])),
    notes: [],
  };
};

const markCells = (mark: MarkRow, unit: SpeedUnit): string[] => [
  numberCell(mark.along_m),
  clockWithSd(mark.duration_s, mark.duration_sd_s),
  cell(mark.place, String),
  clockWithSd(mark.section_s, mark.section_sd_s),
  speedCell(mark.split_s_per_500m === null ? null : 500 / mark.split_s_per_500m, unit),
  numberCell(mark.rate_spm, 1),
];

/** Times, rates and speeds of the crews of an event over equal parts of the course. */
export const partsSection = (event: string, rows: readonly RegattaRow[], reading: Reading): Section => {
  const unit = speedUnit(reading, rows[0]!.craft);
  const cells = (part: CoursePartRow): string[] => [
    numberCell(part.to_along_m),
    clockWithSd(part.duration_s, part.duration_sd_s),
    numberCell(part.rate_spm, 1),
    speedCell(part.speed_mps, unit),
    numberCell(part.distance_per_stroke_m, 2),
    numberCell(part.target_pct, 1),
  ];
  return {
    title: `${event}: equal parts`,
    columns: [
      words('crew'),
      figures('to m'),
      figures('time'),
      figuresWhereKnown('rate'),
      speedColumn(unit),
      figuresWhereKnown('m/stroke'),
      figuresWhereKnown('target %'),
    ],
    rows: rows.flatMap((row) => row.parts.map((part) => [row.crew, ...cells(part)])),
    notes: [],
  };
};

/** Gaps of the crews to one of them at the marks, an event each. */
export const gapsSections = ({ gaps }: RegattaResult): Section[] =>
  [...new Set(gaps.map(({ event }) => event))].map((event) => {
    const rows = gaps.filter((gap) => gap.event === event);
    const marks = rows.find((gap) => gap.marks.length > 0)?.marks ?? [];
    return {
      title: `${event}: behind ${rows[0]!.against}, s`,
      columns: [words('crew'), ...marks.map(({ along_m }) => figures(`at ${numberCell(along_m)} m`))],
      rows: rows.map((gap) => [
        gap.crew,
        ...marks.map((_, i) => {
          const mark = gap.marks[i];
          return cell(
            mark?.gap_s,
            (seconds) =>
              `${seconds < 0 ? '-' : '+'}${numberCell(Math.abs(seconds), 1)} ±${numberCell(mark!.gap_sd_s, 1)}`,
          );
        }),
      ]),
      notes: [],
    };
  });

const CAUTION =
  'By the bow ball, over ground, splits to 500 m; ± is one standard deviation. To next: behind the crew ahead; "apart" is no where that is less than two of its own ±. Unofficial: the race jury’s result stands.';

const BY_CLOCK =
  'Times from start_time or an interval hold as far as the starter’s clock and the loggers’ clocks agree.';

/** How the times of a regatta are meant. */
export const regattaNotes = ({ results }: RegattaResult): string[] => [
  CAUTION,
  ...(results.some(({ start_by }) => start_by === 'given' || start_by === 'interval') ? [BY_CLOCK] : []),
];
