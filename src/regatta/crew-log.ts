import type { Positions } from '../contract/positions.js';
import type { ErrorModel, Interval } from '../motion/track.js';

/** When a crew's bow passed a place of the course. */
export interface Passage {
  readonly alongM: number;
  /** On the log's clock, s. */
  readonly atS: number;
  /** sd of `atS`, s. */
  readonly sdS: number;
  /** sd of the time since the run's own start; null without one. */
  readonly sinceStartSdS: number | null;
  /** sd of the time since the passage before; null where there is none. */
  readonly sinceLastSdS: number | null;
}

/** The start of a run, as the crew's own log has it. */
export interface RunStart {
  readonly atS: number;
  readonly sdS: number;
  readonly by: 'line' | 'first_movement';
}

/** Once down the course, or part of it. */
export interface Run {
  readonly start: RunStart | null;
  /** At each line after the start, in order; null where it was not seen to cross. */
  readonly marks: readonly (Passage | null)[];
  /** At each border between equal parts, and the finish. */
  readonly borders: readonly (Passage | null)[];
  /** Log's clock at each whole metre from the start on, s; empty where nobody asked, NaN-free and increasing. */
  readonly metres: readonly { readonly alongM: number; readonly atS: number }[];
  /** Mean speed over the end of the run, m/s. */
  readonly finishMps: number | null;
  readonly finished: boolean;
  /** Where the boat was from its start to its finish; left out where nobody asked. */
  readonly positions?: Positions;
}

/** Strokes in time order, as few bytes each as results need: a regatta holds those of every crew until its end. */
export interface StrokeMarks {
  /** Catch marks, s. */
  readonly atS: Float64Array;
  /** 1 for the last stroke before a stop: the next one does not follow it. */
  readonly isLast: Uint8Array;
}

/** Everything that results need of one crew's log: small, plain, and made without a look at other crews. */
export interface CrewLog {
  /** Unix time of the log's 0 s, s; null without an absolute clock. */
  readonly startUnixS: number | null;
  readonly extent: Interval;
  /** In time order; unfinished ones too. */
  readonly runs: readonly Run[];
  /** Null where no strokes could be found. */
  readonly strokes: StrokeMarks | null;
  readonly errorModel: ErrorModel;
  /** Where the log ends on the course, m, and at which speed; null where it ends off the course. */
  readonly end: { readonly alongM: number; readonly speedMps: number } | null;
  /** Length of its hull, m. */
  readonly hullLengthM: number;
  /** False where the bow offset was assumed. */
  readonly bowOffsetKnown: boolean;
}
