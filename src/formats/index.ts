export { readLog } from './read-log.js';
export { isFault, type ReadAnswer, type Reader, type ReadOptions } from './reader.js';
