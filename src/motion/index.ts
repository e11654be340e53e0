export { departureAfter } from './departure.js';
export { lengthBetween } from './length-between.js';
export { bridgedGaps, bridgeWarnings, outageWarnings, unbridgedGaps } from './outages.js';
export { smoothTrack } from './smooth-track.js';
export { estimateStream } from './stream-estimate.js';
export { throughWater } from './through-water.js';
export type { Crossing, Interval, Track } from './track.js';
