import { COMPARED_TRIALS } from './compared-trials.js';
import { CURVE_TRIALS } from './curve-trials.js';
import { EDGE_TRIALS } from './edge-trials.js';
import type { Trial } from './frame.js';
import { INTERRUPTED_TRIALS } from './interrupted-trials.js';
import { MOTION_TRIALS } from './motion-trials.js';
import { OPENING_TRIALS } from './opening-trials.js';
import { PIECE_TRIALS } from './piece-trials.js';
import { RECEIVER_TRIALS } from './receiver-trials.js';
import { REGATTA_TRIALS } from './regatta-trials.js';

/** Every trial, in the order of the report. A subject adds its own list here and a test that judges it. */
export const TRIALS: readonly Trial[] = [
  ...MOTION_TRIALS,
  ...RECEIVER_TRIALS,
  ...PIECE_TRIALS,
  ...EDGE_TRIALS,
  ...INTERRUPTED_TRIALS,
  ...COMPARED_TRIALS,
  ...CURVE_TRIALS,
  ...OPENING_TRIALS,
  ...REGATTA_TRIALS,
];
