export { placeOnEarth } from './place.js';
export type { TrueStrokeKind } from './script.js';
export { simulate } from './simulate.js';
export type { Simulated } from './simulated.js';
export type { BoatTruth, TrueStretch, TrueStroke, Truth } from './truth.js';
