import { rateBandRow } from '../contract/outing.js';
import { comparedRow, offCurveRow, openingRow, openingStrokeRow } from '../contract/piece-detail.js';
import type { PiecesResult } from '../contract/pieces.js';
import type { Craft } from '../units/craft.js';
import { clockCell, numberCell, speedCell, speedColumn, speedInUnit, speedUnit } from './cells.js';
import { comparedSections } from './compared.js';
import { steadinessSection } from './outing.js';
import { piecePlots } from './piece-plot.js';
import { figures, type Reading, type Section, words } from './section.js';
import { type Cell, flat, type View } from './view.js';

/** What is reported of pieces beyond their figures, and can be written as rows. */
export const DETAIL_ROWS = ['openings', 'bands', 'off-curve', 'compared'] as const;
type DetailRows = (typeof DETAIL_ROWS)[number];
type Rows = Pick<View<PiecesResult>, 'keys' | 'rows' | 'cells'>;

/** One row a part of a whole, the whole repeated; a whole without parts keeps a row of its own. */
const repeated = (whole: object, parts: readonly object[]): Record<string, Cell>[] =>
  parts.length === 0 ? [flat(whole)] : parts.map((part) => ({ ...flat(whole), ...flat(part) }));

const VIEWS: Readonly<Record<DetailRows, Rows>> = {
  openings: {
    keys: [...Object.keys(openingRow.omit({ strokes: true }).shape), ...Object.keys(openingStrokeRow.shape)],
    rows: ({ openings = [] }) => openings,
    cells: ({ openings = [] }) => openings.flatMap((opening) => repeated(opening, opening.strokes)),
  },
  bands: {
    keys: ['file', ...Object.keys(rateBandRow.shape)],
    rows: ({ rate_bands }) => rate_bands,
    cells: ({ rate_bands }) => rate_bands.map((band) => flat(band)),
  },
  'off-curve': {
    keys: Object.keys(offCurveRow.omit({ strokes: true }).shape),
    rows: ({ off_curve = [] }) => off_curve,
    cells: ({ off_curve = [] }) => off_curve.map(({ strokes: _, ...row }) => flat(row)),
  },
  compared: {
    keys: Object.keys(comparedRow.shape),
    rows: ({ compared = [] }) => compared,
    cells: ({ compared = [] }) => compared.map((row) => flat(row)),
  },
};

/** Headings and rows of what was asked for. */
export const detailView = (rows: DetailRows): Rows => VIEWS[rows];

/** The craft of a log, as far as it is known. */
type CraftOf = (file: string) => Craft | null;

const several = ({ pieces }: PiecesResult): boolean => new Set(pieces.map(({ file }) => file)).size > 1;

const openingSection = (
  opening: NonNullable<PiecesResult['openings']>[number],
  named: boolean,
  craft: Craft | null,
  reading: Reading,
): Section => {
  const unit = speedUnit(reading, craft);
  const { time_to_100m_s, time_to_100m_sd_s, time_to_race_speed_s, race_speed_mps } = opening;
  const seconds = (value: number) => `${numberCell(value, 1)} s`;
  const hundred =
    time_to_100m_s === null
      ? '100 m were not reached or are not known.'
      : `100 m after ${seconds(time_to_100m_s)} ±${numberCell(time_to_100m_sd_s, 1)}.`;
  const reached =
    time_to_race_speed_s !== null
      ? `after ${seconds(time_to_race_speed_s)}`
      : opening.strokes.length === 0
        ? 'is not held against strokes'
        : 'was not reached by any stroke';
  const race =
    race_speed_mps === null
      ? 'Race speed is not known.'
      : `Race speed (${speedInUnit(race_speed_mps, unit)}, the mean of the middle half of the piece) ${reached}.`;
  return {
    title: `Opening of piece ${opening.piece}, ${opening.start} start${named ? `, ${opening.file}` : ''}`,
    columns: [
      figures('stroke'),
      figures('until'),
      figures('rate'),
      speedColumn(unit),
      figures('m'),
      figures('± m'),
      figures('total m'),
    ],
    rows: opening.strokes.map((stroke) => [
      String(stroke.stroke),
      clockCell(stroke.cumulative_s, 1),
      numberCell(stroke.rate_spm, 1),
      speedCell(stroke.speed_mps, unit),
      numberCell(stroke.distance_m, 2),
      numberCell(stroke.distance_sd_m, 2),
      numberCell(stroke.cumulative_m, 1),
    ]),
    notes: [
      ...(opening.strokes.length === 0 ? ['The log shows no strokes here.'] : []),
      `${hundred} ${race}`,
    ],
  };
};

const bandSections = (result: PiecesResult): Section[] =>
  [...new Set(result.rate_bands.map(({ file }) => file))].flatMap((file) => {
    const bands = result.rate_bands.filter((band) => band.file === file && band.speed_variation !== null);
    if (bands.length === 0) return [];
    const title = `Steadiness by rate, from 20 s into the pieces${several(result) ? `, ${file}` : ''}`;
    return [{ ...steadinessSection(bands), title }];
  });

const offSection = (
  rows: NonNullable<PiecesResult['off_curve']>,
  named: boolean,
  craft: Craft | null,
  reading: Reading,
): Pick<Section, 'columns' | 'rows'> => {
  const unit = speedUnit(reading, craft);
  return {
    columns: [
      ...(named ? [words('log')] : []),
      figures('piece'),
      figures('from m'),
      figures('to m'),
      figures('strokes'),
      figures('rate'),
      speedColumn(unit),
      figures('% of curve'),
      figures('whole piece'),
    ],
    rows: rows.map((row) => [
      ...(named ? [row.file] : []),
      String(row.piece),
      numberCell(row.from_along_m),
      numberCell(row.to_along_m),
      `${row.from_stroke}-${row.to_stroke}`,
      numberCell(row.rate_spm, 1),
      speedCell(row.speed_mps, unit),
      numberCell(row.speed_against_curve_pct, 1),
      numberCell(row.level_against_curve_pct, 1),
    ]),
  };
};

const PARTING: Section = {
  title: 'Where speed and rate part company',
  columns: [],
  rows: [],
  notes: [],
};

const offSections = (result: PiecesResult, craftOf: CraftOf, reading: Reading): Section[] => {
  if (result.off_curve === undefined) return [];
  if (result.pieces.every(({ speed_against_curve_pct }) => speed_against_curve_pct === null))
    return [{ ...PARTING, notes: ['Not known: no piece has speed and a rate that the curve has.'] }];
  const rows = result.off_curve;
  const craft = craftOf(result.pieces[0]!.file);
  return [
    {
      ...PARTING,
      ...(rows.length === 0 ? {} : offSection(rows, several(result), craft, reading)),
      notes: [
        `${rows.length === 0 ? 'Nowhere. ' : ''}What counts is six strokes in a row, after the first 20 s, more than 3 % above or below what the curve gives at their rate, held against the piece as a whole: a gust, a wash, a turn or the crew.`,
      ],
    },
  ];
};

/** What was asked of pieces beyond their figures; there is at least one piece. */
export const detailSections = (
  result: PiecesResult,
  craftOf: CraftOf,
  reading: Reading,
): readonly Section[] => [
  ...comparedSections(result, craftOf(result.pieces[0]!.file), reading),
  ...piecePlots(result.drawn ?? [], several(result), craftOf, reading),
  ...(result.openings ?? []).map((opening) =>
    openingSection(opening, several(result), craftOf(opening.file), reading),
  ),
  ...offSections(result, craftOf, reading),
  ...bandSections(result),
];
