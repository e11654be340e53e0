export { checkResultOf, idleRules } from './check-result.js';
export type { Results } from './figure.js';
export { LOG_HEALTH_RULES } from './log-health-rules.js';
export { parseRules } from './parse-rules.js';
export { checkFile, commandsOf } from './rule-check.js';
export { looksStored, parseStoredResult, type StoredResult } from './stored-result.js';
