export { detectStrokes, type StrokeOptions } from './detect-strokes.js';
export type { Stroke, StrokeSeries, StrokeSource } from './stroke.js';
export { strokeRows } from './stroke-rows.js';
export { MATCH_WINDOW_S, type StrokeScore, scoreStrokes } from './stroke-score.js';
