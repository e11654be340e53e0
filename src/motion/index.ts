export { departureAfter } from './departure.js';
export { lengthBetween } from './length-between.js';
export { outageWarnings, unbridgedGaps } from './outages.js';
export { smoothTrack } from './smooth-track.js';
export { estimateStream } from './stream-estimate.js';
export type { Crossing, Interval, Track } from './track.js';
