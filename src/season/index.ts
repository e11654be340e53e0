export { heartRateZones, polarizationIndex } from './heart-rate-zones.js';
export type { LogSummary, MinutePlace, PieceSummary } from './log-summary.js';
export { logSummaryOf, renamed } from './log-summary-of.js';
export { distinctOutings, SAME_OUTING_SETTINGS } from './same-outing.js';
export { type SeasonAsk, seasonOf } from './season.js';
export { SEASON_BESTS } from './season-bests.js';
