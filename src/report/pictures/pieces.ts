import type { PiecesResult } from '../../contract/pieces.js';
import { speedUnit } from '../cells.js';
import type { Picture } from '../drawing/picture.js';
import type { Reading } from '../section.js';
import { piecesAlong } from './pieces-along.js';
import { piecesBeside } from './pieces-beside.js';
import { piecesCompared } from './pieces-compared.js';
import { piecesOpenings } from './pieces-openings.js';
import { piecesTogether } from './pieces-together.js';

/** The pictures of `thole pieces`. */
export const piecesPictures = (result: PiecesResult, reading: Reading): readonly Picture[] => {
  const file = result.pieces[0]?.file;
  const unit = speedUnit(reading, result.sheet.find((row) => row.file === file)?.craft ?? null);
  return [
    ...piecesTogether(result, reading),
    ...[
      piecesCompared(result, unit),
      piecesBeside(result, unit),
      piecesAlong(result, unit),
      piecesOpenings(result, unit),
    ].filter((picture) => picture !== null),
  ];
};
