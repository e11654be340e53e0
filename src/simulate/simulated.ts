import type { Recording } from '../recording/index.js';
import type { Truth } from './truth.js';

/** A simulated outing in memory: what the loggers wrote, read as recordings, and what was true. */
export interface Simulated {
  readonly track: Recording | null;
  readonly imu: Recording | null;
  readonly truth: Truth;
}
