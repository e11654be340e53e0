import type { StrokeSource } from './stroke.js';
import type { Surge } from './surge.js';

/**
 * The surge in which strokes were found, with their marks, on a clock of its own: long gaps of the log are cut
 * short in it.
 */
export interface StrokeSignal {
  readonly source: StrokeSource;
  /** Surge, forward positive, without what waves put into it as far as that was predicted. */
  readonly surge: Surge;
  /** The same with the waves left in, m/s². */
  readonly rawMps2: Float64Array;
  /** Catch marks, s. */
  readonly marksS: readonly number[];
  /** How likely each is a stroke, 0 to 1. */
  readonly confidence: readonly number[];
  /** Next catch mark of each, s; null for the last before a stop. */
  readonly endsS: readonly (number | null)[];
  /** Mean speed of each over ground, m/s; null where there is no track or no end. */
  readonly speedsMps: readonly (number | null)[];
  /** The time on the recording's clock of a time on this one, s. */
  readonly toLog: (atS: number) => number;
}
