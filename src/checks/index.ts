export { CHECKED_COMMANDS, type CheckedCommand, type LogResults } from './figure.js';
export { parseRules } from './parse-rules.js';
export { checkLog, commandsOf } from './rule-check.js';
