import type { StrokesResult } from '../contract/strokes.js';
import { strokeRows } from '../strokes/index.js';
import type { Outing } from './outing.js';
import { resultFrame } from './result-frame.js';

/** What `thole strokes` tells of an outing: one row for each stroke. */
export const strokesResultOf = (outing: Outing): StrokesResult => {
  const { files, warnings, error_model } = resultFrame(outing);
  return {
    schema: 'thole/strokes/1',
    files,
    warnings,
    error_model,
    craft: outing.strokes.craft ?? outing.craft,
    strokes: strokeRows(outing.strokes, outing.track, outing.recording, outing.stream),
  };
};
