export { detectStrokes, type StrokeOptions } from './detect-strokes.js';
export type { Stroke, StrokeSeries, StrokeSource } from './stroke.js';
export {
  CYCLE_SETTINGS,
  type CycleAverage,
  cycleAverage,
  type StrokeCycle,
  strokeCycles,
} from './stroke-cycle.js';
export { strokeRows } from './stroke-rows.js';
export { MATCH_WINDOW_S, type StrokeScore, scoreStrokes } from './stroke-score.js';
export type { StrokeSignal } from './stroke-signal.js';
