import { type StrokesResult, strokeRow } from '../contract/strokes.js';
import { clockCell, numberCell, speedCell, speedColumn, speedUnit } from './cells.js';
import { figures, figuresWhereKnown } from './section.js';
import { speedOverNotes } from './speed-over.js';
import { flat, type View } from './view.js';

const notesOf = (strokes: StrokesResult['strokes']): string[] => {
  if (strokes.length === 0) return ['No strokes.'];
  return speedOverNotes(strokes);
};

/** `thole strokes`: one row for each stroke. */
export const strokesView: View<StrokesResult> = {
  keys: Object.keys(strokeRow.shape),
  rows: ({ strokes }) => strokes,
  cells: ({ strokes }) => strokes.map((stroke) => flat(stroke)),
  sections: ({ strokes, craft }, reading) => {
    const unit = speedUnit(reading, craft);
    return [
      {
        title: null,
        columns: [
          figures('stroke'),
          figures('at'),
          figures('rate'),
          speedColumn(unit),
          figures('m'),
          figures('total m'),
          figures('drive s'),
          figures('variation'),
          figures('catch m/s²'),
          figuresWhereKnown('HR'),
        ],
        rows: strokes.map((stroke) => [
          String(stroke.stroke),
          clockCell(stroke.at_s, 1),
          numberCell(stroke.rate_spm, 1),
          speedCell(stroke.speed_mps, unit),
          numberCell(stroke.distance_m, 2),
          numberCell(stroke.cumulative_m),
          numberCell(stroke.drive_s, 2),
          numberCell(stroke.speed_variation, 3),
          numberCell(stroke.catch_deceleration_mps2, 1),
          numberCell(stroke.heart_rate_bpm),
        ]),
        notes: notesOf(strokes),
      },
    ];
  },
};
