import { loaded } from './start.js';

// A worker's own script.
void loaded(process, 'worker').serve();
