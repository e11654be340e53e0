export { detectStrokes, type StrokeOptions } from './detect-strokes.js';
export { GAUGE_SETTINGS } from './gauge-settings.js';
export { falseStrokesPerMin, type InjectionResult, injectionRates, injectionTest } from './injection-test.js';
export { speedRateNeededHz } from './speed-signal.js';
export type { StrokeSeries } from './stroke.js';
export {
  CYCLE_SETTINGS,
  cycleAverage,
  type StrokeCycle,
  strokeCycles,
} from './stroke-cycle.js';
export { gaugeStrokes, type StrokeGauge } from './stroke-gauge.js';
export { strokeRows } from './stroke-rows.js';
export { scoreStrokes } from './stroke-score.js';
export { SIGNAL_SETTINGS } from './stroke-settings.js';
export type { StrokeSignal } from './stroke-signal.js';
export { type SurgeSpectra, surgeSpectra } from './surge-spectra.js';
