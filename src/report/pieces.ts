import { type PieceRow, type PiecesResult, partRow, pieceRow } from '../contract/pieces.js';
import type { Craft } from '../units/craft.js';
import {
  cell,
  clockCell,
  clockWithSd,
  distanceCell,
  numberCell,
  speedCell,
  speedColumn,
  speedUnit,
  timeCell,
  UNKNOWN,
} from './cells.js';
import { type MapShape, positionsBetween } from './map/map-shape.js';
import { DETAIL_ROWS, detailSections, detailView } from './pieces-detail.js';
import { figures, figuresWhereKnown, noteSection, type Reading, type Section, words } from './section.js';
import { type Cell, flat, type View } from './view.js';

const PIECE_KEYS = Object.keys(pieceRow.omit({ parts: true, positions: true, interruptions: true }).shape);

/** A key that a piece and a part share names the piece; the part's own is distinguished. */
const partKey = (key: string): string => (PIECE_KEYS.includes(key) ? `part_${key}` : key);

/** One row a part, the piece repeated; a piece that could not be cut keeps a row of its own. */
const rowsOf = (piece: PieceRow): Record<string, Cell>[] =>
  piece.parts.length === 0
    ? [flat(piece)]
    : piece.parts.map((part) => ({
        ...flat(piece),
        ...Object.fromEntries(Object.entries(flat(part)).map(([key, value]) => [partKey(key), value])),
      }));

const OUTCOMES = {
  complete: 'complete',
  stopped_short: 'stopped short',
  eased_off: 'eased off',
  log_ended: 'log ended',
} as const;

const craftOf = ({ sheet }: PiecesResult, file: string): Craft | null =>
  sheet.find((row) => row.file === file)?.craft ?? null;

/** Within this of straight ahead or astern a wind is head or tail, else it is across: 45 degrees. */
const ACROSS = Math.SQRT1_2;

/** The wind on a piece: head, tail or cross, and how strong it is. */
const windCell = ({ headwind_mps: head, crosswind_mps: cross }: PieceRow): string => {
  if (head === null || cross === null) return UNKNOWN;
  const mps = Math.hypot(head, cross);
  const way = Math.abs(head) < ACROSS * mps ? 'cross' : head < 0 ? 'tail' : 'head';
  return `${way} ${numberCell(mps, 1)}`;
};

/** Seconds without fixes that were bridged; nothing where there are none. */
const bridgedCell = ({ bridged_s }: { readonly bridged_s: number }): string =>
  bridged_s === 0 ? UNKNOWN : `${numberCell(bridged_s)} s`;

const overview = (result: PiecesResult, reading: Reading): Section => {
  const unit = speedUnit(reading, craftOf(result, result.pieces[0]!.file));
  const several = new Set(result.pieces.map(({ file }) => file)).size > 1;
  const byFile = namedByFile(result.pieces);
  const asked = result.pieces.some(({ outcome }) => outcome !== null);
  const standing = result.pieces.some(({ start }) => start === 'standing');
  const along = result.pieces.some(({ course_way }) => course_way !== null);
  return {
    title: `Pieces, speeds ${result.pieces[0]!.speed_over === 'water' ? 'through the water, distances over ground' : 'over ground'}`,
    columns: [
      figures('piece'),
      ...(several ? [words('log')] : []),
      figures('from'),
      words(along ? 'course' : 'start'),
      ...(asked ? [words('outcome')] : []),
      figures('distance'),
      figures('time'),
      figuresWhereKnown('without stops'),
      figuresWhereKnown('bridged'),
      figures('rate'),
      speedColumn(unit),
      figures('m/stroke'),
      figuresWhereKnown('HR'),
      figuresWhereKnown('% of curve'),
      figuresWhereKnown('target %'),
      figuresWhereKnown('wind m/s'),
    ],
    rows: result.pieces.map((piece) => [
      String(piece.piece),
      ...(several ? [byFile ? piece.file : piece.crew!] : []),
      piece.start_time === null ? clockCell(piece.start_at_s) : timeCell(piece.start_time, reading),
      along ? cell(piece.course_way, String) : piece.start,
      ...(asked ? [piece.outcome === null ? UNKNOWN : OUTCOMES[piece.outcome]] : []),
      distanceCell(piece.distance_m),
      clockWithSd(piece.duration_s, piece.duration_sd_s),
      piece.interruptions.length === 0 ? UNKNOWN : clockCell(piece.uninterrupted_s, 1),
      bridgedCell(piece),
      numberCell(piece.rate_spm, 1),
      speedCell(piece.speed_mps, unit),
      numberCell(piece.distance_per_stroke_m, 2),
      numberCell(piece.heart_rate_mean_bpm),
      numberCell(piece.speed_against_curve_pct, 1),
      numberCell(piece.target_pct, 1),
      windCell(piece),
    ]),
    notes: [
      ...(standing ? ['A standing start is timed from first movement.'] : []),
      ...(result.pieces.some(({ bridged_s }) => bridged_s > 0)
        ? ['Bridged: without fixes; the way there is a guess from both sides, and ± holds it.']
        : []),
      ...(result.pieces.some(({ headwind_mps }) => headwind_mps !== null)
        ? ['Wind is that of the outing sheet; no speed is corrected for it.']
        : []),
    ],
  };
};

/** Whether pieces of several logs are named by the log: a crew stands for one log only, or is not known. */
const namedByFile = (pieces: readonly PieceRow[]): boolean => {
  const files = new Set(pieces.map(({ file }) => file));
  const crews = new Set(pieces.flatMap(({ crew }) => (crew === null ? [] : [crew])));
  return files.size > 1 && crews.size < files.size;
};

const partsSection = (piece: PieceRow, craft: Craft | null, reading: Reading, crewless: boolean): Section => {
  const unit = speedUnit(reading, craft);
  return {
    title: `Piece ${piece.piece}${crewless ? `, ${piece.file}` : piece.crew === null ? '' : `, ${piece.crew}`}: ${distanceCell(piece.distance_m)} in ${clockCell(piece.duration_s, 1)}`,
    columns: [
      figures('part'),
      figures('to m'),
      figures('time'),
      figures('total'),
      figuresWhereKnown('bridged'),
      figures('strokes'),
      figures('rate'),
      speedColumn(unit),
      figures('m/stroke'),
      figuresWhereKnown('% of curve'),
      figuresWhereKnown('target %'),
      figuresWhereKnown('HR'),
    ],
    rows: piece.parts.map((part) => [
      String(part.part),
      numberCell(part.to_along_m),
      clockWithSd(part.duration_s, part.duration_sd_s),
      clockCell(part.cumulative_s, 1),
      bridgedCell(part),
      numberCell(part.stroke_count),
      numberCell(part.rate_spm, 1),
      speedCell(part.speed_mps, unit),
      numberCell(part.distance_per_stroke_m, 2),
      numberCell(part.speed_against_curve_pct, 1),
      numberCell(part.target_pct, 1),
      numberCell(part.heart_rate_mean_bpm),
    ]),
    notes: [],
  };
};

/** The lists of pieces that can be written as rows. */
export const PIECES_ROWS = ['parts', 'pieces', ...DETAIL_ROWS] as const;
export type PiecesRows = (typeof PIECES_ROWS)[number];

/** `thole pieces`, with the rows that were asked for. */
export const piecesRowsView = (rows: PiecesRows): View<PiecesResult> => {
  if (rows === 'parts') return piecesView;
  return { ...piecesView, ...(rows === 'pieces' ? WHOLE : detailView(rows)) };
};

/** One row a piece, without its parts. */
const WHOLE: Pick<View<PiecesResult>, 'keys' | 'rows' | 'cells'> = {
  keys: PIECE_KEYS,
  rows: ({ pieces }) => pieces.map(({ parts: _, ...piece }) => piece),
  cells: ({ pieces }) => pieces.map((piece) => flat(piece)),
};

/** A piece and its parts on a map. */
const pieceShapes = (piece: PieceRow): MapShape[] => {
  const { positions = [], start_at_s, parts } = piece;
  const name = [piece.crew, `piece ${piece.piece}`].filter((part) => part !== null).join(', ');
  return [
    { name, kind: 'piece', positions, figures: flat(piece) },
    ...parts.map((part, i): MapShape => {
      const fromS = start_at_s + (parts[i - 1]?.cumulative_s ?? 0);
      return {
        name: `${name}, part ${part.part}`,
        kind: 'part',
        positions: positionsBetween(positions, fromS, start_at_s + part.cumulative_s),
        figures: { file: piece.file, piece: piece.piece, ...flat(part) },
      };
    }),
  ];
};

/** `thole pieces`: each piece, and its parts. */
export const piecesView: View<PiecesResult> = {
  pictures: async () => (await import('./pictures/pieces.js')).piecesPictures,
  keys: [...PIECE_KEYS, ...Object.keys(partRow.shape).map(partKey)],
  shapes: ({ pieces }) => pieces.flatMap(pieceShapes),
  rows: ({ pieces }) => pieces,
  cells: ({ pieces }) => pieces.flatMap(rowsOf),
  sections: (result, reading) =>
    result.pieces.length === 0
      ? [noteSection('No pieces found.')]
      : [
          overview(result, reading),
          ...result.pieces.map((piece) =>
            partsSection(piece, craftOf(result, piece.file), reading, namedByFile(result.pieces)),
          ),
          ...detailSections(result, (file) => craftOf(result, file), reading),
        ],
};
