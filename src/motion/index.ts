export { type Departure, departureAfter } from './departure.js';
export { lengthBetween } from './length-between.js';
export { outageWarnings, unbridgedGaps } from './outages.js';
export { smoothTrack, type TrackOptions, type TrackResult } from './smooth-track.js';
export { estimateStream, type StreamEstimate, type StreamFinding } from './stream-estimate.js';
export type { Crossing, CrossingAsk, ErrorModel, Interval, Track } from './track.js';
