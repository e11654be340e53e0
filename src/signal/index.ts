export { butterworth, type Filter, twoPassCutoff } from './butterworth.js';
export { difference } from './difference.js';
export { type EvenGrid, evenGrid } from './even-grid.js';
export { median, quantile, quantileInPlace, robustScale, runningMedian } from './median.js';
export { parabolaVertex, type Vertex } from './parabola.js';
export { type Peak, type PeakAsk, peaks } from './peaks.js';
export { savitzkyGolay } from './savitzky-golay.js';
export { fourier } from './spectrum.js';
export { zeroPhase } from './zero-phase.js';
