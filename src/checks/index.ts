export { checkResultOf } from './check-result.js';
export type { Results } from './figure.js';
export { LOG_HEALTH_RULES } from './log-health-rules.js';
export { parseRules } from './parse-rules.js';
export { checkFile, commandsOf, isAbout } from './rule-check.js';
export { looksStored, parseStoredResult, type StoredResult, type Subject } from './stored-result.js';
