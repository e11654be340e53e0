export { lineTimes, type PlanePoint } from './line-times.js';
export { placeOnEarth } from './place.js';
export type { TrueStrokeKind } from './script.js';
export { simulate } from './simulate.js';
export type { Simulated } from './simulated.js';
export { type SimulatedFile, simulatedFiles } from './simulated-files.js';
export type { BoatTruth, TrueStretch, TrueStroke, Truth } from './truth.js';
