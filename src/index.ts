export { decimalsOf, settle } from './contract/decimals.js';
export { SCHEMAS } from './contract/schemas.js';
export * from './outing/index.js';
export * from './recording/index.js';
export { formatClock, parseClock } from './units/clock-time.js';
export { CRAFT_CODES, type Craft, craftFamily, RATE_RANGE_SPM } from './units/craft.js';
export { formatSpeed, parseSpeed, speedOfSplit, splitOfSpeed } from './units/speed.js';
export { parseStream, type Stream } from './units/stream.js';
export { UserError } from './units/user-error.js';
