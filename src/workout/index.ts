export { paceResultOf, paceSheet, type Steps } from './pace-result.js';
