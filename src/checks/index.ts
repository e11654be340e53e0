export { checkResultOf } from './check-result.js';
export { CHECKED_COMMANDS, type CheckedCommand, type LogResults } from './figure.js';
export { parseRules } from './parse-rules.js';
export { checkLog, commandsOf } from './rule-check.js';
export { SOUND_LOG } from './sound-log.js';
