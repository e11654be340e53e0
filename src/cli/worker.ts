import { loaded } from './start.js';

// A worker's own script.
void loaded().program.serve();
