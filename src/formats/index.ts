export { readLog } from './read-log.js';
export { isFault, type ReadAnswer, type ReadOptions } from './reader.js';
