export { type Best, type BestAsk, bestStretches } from './best.js';
export { type Bout, boutsOf, bridged } from './bout.js';
export { momentOf } from './moment.js';
export { type OutingAsk, openOuting } from './open-outing.js';
export type { Outing } from './outing.js';
export { USUAL_BOUNDS_SPM } from './rate-bands.js';
export { parseOutingSheet, sheetRowOf, stemOf } from './sheet.js';
export { type Stretch, stretchOf } from './stretch.js';
export { bestWarnings, type Summary, type SummaryAsk, summarise, USUAL_BESTS } from './summary.js';
