import type { Warning } from '../recording/index.js';
import type { Craft } from '../units/craft.js';
import type { StrokeSignal } from './stroke-signal.js';

/** What strokes were found in. */
export type StrokeSource = 'imu' | 'speed' | 'cadence';

/** One stroke, catch mark to catch mark. Times on the recording's clock. */
export interface Stroke {
  /** The catch mark, s. */
  readonly atS: number;
  /** 60 / seconds to the next catch mark, spm; null for the last stroke before a stop. */
  readonly rateSpm: number | null;
  readonly source: StrokeSource;
  /** 0…1: how likely this is a stroke. */
  readonly confidence: number;
  /** What the stroke looks like, as far as the data allow. */
  readonly kind: 'rowing' | 'backing' | 'single';
  /** Catch mark to the end of the drive, s; null where both ends do not show. */
  readonly driveS: number | null;
  readonly speedMinMps: number | null;
  readonly speedMaxMps: number | null;
  readonly speedVariation: number | null;
  readonly extraDragPowerPct: number | null;
  readonly catchDecelerationMps2: number | null;
}

/** All strokes of an outing, in time order, with what was said on the way. */
export interface StrokeSeries {
  readonly strokes: readonly Stroke[];
  /** Null where none could be found; the reason is in `warnings`. */
  readonly source: StrokeSource | null;
  /** The craft whose range of rates was used. */
  readonly craft: Craft | null;
  /** The surges they were found in, best source first; one for each mount of the sensor, the longest first. */
  readonly signals: readonly StrokeSignal[];
  readonly warnings: readonly Warning[];
}
