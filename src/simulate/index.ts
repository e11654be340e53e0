export { placeOnEarth } from './place.js';

export { simulate } from './simulate.js';
export type { Simulated } from './simulated.js';
export { type SimulatedFile, simulatedFiles } from './simulated-files.js';
export type { BoatTruth, Truth } from './truth.js';
