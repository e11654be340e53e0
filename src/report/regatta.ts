import type { Positions } from '../contract/positions.js';
import {
  coursePartRow,
  markRow,
  type RegattaResult,
  type RegattaRow,
  regattaRow,
} from '../contract/regatta.js';
import { grouped } from '../units/grouped.js';
import { type MapShape, positionsWhere, ROUNDING_S } from './map/map-shape.js';
import {
  gapsSections,
  marksSection,
  numbersSection,
  partsSection,
  regattaNotes,
  resultsSection,
} from './regatta-sections.js';
import { type Cell, flat, type View } from './view.js';

/** What a row of the table or the CSV is about. */
export type RegattaRows = 'crews' | 'marks' | 'parts';

const CREW_KEYS = Object.keys(
  regattaRow.omit({ marks: true, parts: true, positions: true, extra: true }).shape,
);
/** What of the crew stands beside each of its marks or parts. */
const HEAD_KEYS = ['event', 'place', 'crew', 'crew_number', 'lane', 'craft', 'outcome'];

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

const keysOf = (result: RegattaResult, rows: RegattaRows): string[] => {
  const extra = extraKeys(result);
  if (rows === 'crews') return [...CREW_KEYS, ...extra];
  const [prefix, shape] = rows === 'marks' ? ['mark', markRow.shape] : ['part', coursePartRow.shape];
  return [...HEAD_KEYS, ...Object.keys(shape).map((key) => headed(prefix, key)), ...extra];
};

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

/** `thole regatta`: times, places and margins; one row a crew, or a crew and mark, or a crew and part. */
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
    const sections = [...grouped(result.results, (row) => row.event)].flatMap(([event, crews]) => [
      resultsSection(event, crews, reading),
      ...numbersSection(event, crews),
      ...(below === null ? [] : [below(event, crews, reading)]),
    ]);
    const all = [...sections, ...gapsSections(result)];
    return all.map((section, i) =>
      i === all.length - 1 ? { ...section, notes: regattaNotes(result) } : section,
    );
  },
});
