export { heartRateZones, polarizationIndex } from './heart-rate-zones.js';
export type { LogSummary, MinutePlace } from './log-summary.js';
export { logSummaryOf, renamed } from './log-summary-of.js';
export { distinctOutings } from './same-outing.js';
export { type SeasonAsk, seasonOf } from './season.js';
