import type { Positions } from '../contract/positions.js';
import {
  type CoursePartRow,
  type CourseRow,
  courseLineRow,
  coursePartRow,
  type MarkRow,
  markRow,
  type RegattaResult,
  type RegattaRow,
  regattaRow,
} from '../contract/regatta.js';
import type { SpeedUnit } from '../units/speed.js';
import {
  cell,
  clockCell,
  clockWithSd,
  distanceCell,
  numberCell,
  speedCell,
  speedColumn,
  speedUnit,
  UNKNOWN,
} from './cells.js';
import { type MapShape, positionsWhere, ROUNDING_S } from './map/map-shape.js';
import { type Column, figures, figuresWhereKnown, type Reading, type Section, words } from './section.js';
import { type Cell, flat, type View } from './view.js';

/** What a row of the table or the CSV is about. */
export type RegattaRows = 'crews' | 'marks' | 'parts';

const CREW_KEYS = Object.keys(
  regattaRow.omit({ marks: true, parts: true, positions: true, extra: true }).shape,
);
/** What of the crew stands beside each of its marks or parts. */
const HEAD_KEYS = ['event', 'place', 'crew', 'crew_number', 'lane', 'craft', 'outcome'];

const OUTCOMES = {
  finished: '',
  not_finished: 'did not finish',
  not_started: 'did not start',
  excluded: 'excluded',
} as const;

const headed = (prefix: string, key: string): string => (HEAD_KEYS.includes(key) ? `${prefix}_${key}` : key);

/** A further column of the entries; one that is called like a key of the result is distinguished. */
const extraKey = (name: string): string =>
  [...CREW_KEYS, ...Object.keys(markRow.shape), ...Object.keys(coursePartRow.shape)].includes(name)
    ? `entry_${name}`
    : name;

/** Columns of the entries beyond the known ones, in their order. */
const extraKeys = ({ results }: RegattaResult): string[] => [
  ...new Set(results.flatMap(({ extra }) => Object.keys(extra).map(extraKey))),
];

const extraCells = ({ extra }: RegattaRow): Record<string, Cell> =>
  Object.fromEntries(Object.entries(extra).map(([name, value]) => [extraKey(name), value]));

const crewCells = (row: RegattaRow): Record<string, Cell> => {
  const { extra: _, ...rest } = row;
  return { ...extraCells(row), ...flat(rest) };
};

const rowsBelow = (row: RegattaRow, prefix: string, below: readonly object[]): Record<string, Cell>[] => {
  const crew = crewCells(row);
  const head = Object.fromEntries(HEAD_KEYS.map((key) => [key, crew[key]!]));
  return below.map((inner) => ({
    ...extraCells(row),
    ...head,
    ...Object.fromEntries(Object.entries(flat(inner)).map(([key, value]) => [headed(prefix, key), value])),
  }));
};

/** Rows by their event, in order. */
const byEvent = (rows: readonly RegattaRow[]): Map<string, RegattaRow[]> => {
  const groups = new Map<string, RegattaRow[]>();
  for (const row of rows) groups.set(row.event, [...(groups.get(row.event) ?? []), row]);
  return groups;
};

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

const resultsSection = (event: string, rows: readonly RegattaRow[], reading: Reading): Section => {
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
const numbersSection = (event: string, rows: readonly RegattaRow[]): Section[] => {
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

const marksSection = (event: string, rows: readonly RegattaRow[], reading: Reading): Section => {
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

const partsSection = (event: string, rows: readonly RegattaRow[], reading: Reading): Section => {
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

const gapsSections = ({ gaps }: RegattaResult): Section[] =>
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

const notesOf = ({ results }: RegattaResult): string[] => [
  CAUTION,
  ...(results.some(({ start_by }) => start_by === 'given' || start_by === 'interval') ? [BY_CLOCK] : []),
];

const keysOf = (result: RegattaResult, rows: RegattaRows): string[] => {
  const extra = extraKeys(result);
  if (rows === 'crews') return [...CREW_KEYS, ...extra];
  const [prefix, shape] = rows === 'marks' ? ['mark', markRow.shape] : ['part', coursePartRow.shape];
  return [...HEAD_KEYS, ...Object.keys(shape).map((key) => headed(prefix, key)), ...extra];
};

/** `thole regatta`: times, places and margins; one row a crew, or a crew and mark, or a crew and part. */
/** A crew from start to finish on a map, and where it was at each line. */
const crewShapes = (row: RegattaRow): MapShape[] => {
  const { positions = [], start_time, marks, crew } = row;
  const startMs = start_time === null ? Number.NaN : Date.parse(start_time);
  const placeAt = (durationS: number | null): Positions => {
    if (durationS === null) return [];
    const atMs = startMs + 1000 * durationS;
    return positionsWhere(
      positions,
      ({ time }) => time !== null && Math.abs(Date.parse(time) - atMs) <= 1000 * ROUNDING_S,
    );
  };
  return [
    { name: crew, kind: 'crew', positions, figures: flat(row) },
    ...marks.map(
      (mark): MapShape => ({
        name: `${crew}, ${mark.along_m} m`,
        kind: 'mark',
        positions: placeAt(mark.duration_s),
        figures: { event: row.event, crew, ...flat(mark) },
      }),
    ),
  ];
};

export const regattaView = (rows: RegattaRows, result: RegattaResult): View<RegattaResult> => ({
  pictures: async () => (await import('./pictures/regatta.js')).regattaPictures,
  keys: keysOf(result, rows),
  shapes: ({ results: crews }) => crews.flatMap(crewShapes),
  rows: ({ results }) => results,
  cells: ({ results }) =>
    results.flatMap((row) => {
      if (rows === 'crews') return [crewCells(row)];
      return rows === 'marks' ? rowsBelow(row, 'mark', row.marks) : rowsBelow(row, 'part', row.parts);
    }),
  sections: (_, reading) => {
    const below = { crews: null, marks: marksSection, parts: partsSection }[rows];
    const sections = [...byEvent(result.results)].flatMap(([event, crews]) => [
      resultsSection(event, crews, reading),
      ...numbersSection(event, crews),
      ...(below === null ? [] : [below(event, crews, reading)]),
    ]);
    const all = [...sections, ...gapsSections(result)];
    return all.map((section, i) => (i === all.length - 1 ? { ...section, notes: notesOf(result) } : section));
  },
});

const courseSection = ({ file, centreline, lines }: CourseRow): Section => ({
  title: `Course ${file}`,
  columns: [
    words('line'),
    figures('at'),
    figures('measured'),
    figures('section'),
    figures('heading °'),
    figures('width m'),
  ],
  rows: lines.map((line, i) => [
    line.line,
    distanceCell(line.along_m),
    `${numberCell(line.measured_along_m, 1)} m`,
    i === 0 ? '' : `${numberCell(line.along_m - lines[i - 1]!.along_m, 0)} m`,
    numberCell(line.heading_deg, 1),
    numberCell(line.width_m, 1),
  ]),
  notes: [
    centreline
      ? 'Measured along the centreline.'
      : 'Measured from middle to middle of the lines, straight: a course that bends needs a centreline.',
  ],
});

/** `thole regatta --show-course`: the course as the tool sees it. */
export const courseView: View<RegattaResult> = {
  keys: Object.keys(courseLineRow.shape),
  rows: ({ course }) => course.lines,
  cells: ({ course }) => course.lines.map((line) => flat(line)),
  sections: ({ course }) => [courseSection(course)],
};
