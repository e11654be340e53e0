import type { TrueStrokeKind } from './script.js';

/** A stretch of the script, as it was really rowed. Times on the true clock. */
export interface TrueStretch {
  readonly fromS: number;
  readonly toS: number;
  readonly kind: 'rest' | 'rowing';
  /** Asked rate, spm; null at rest. */
  readonly rateSpm: number | null;
  /** The script's own name for it: `start`, `steady`, `pause drill`, … */
  readonly label: string;
}

/** One stroke as it was really taken, in the order of the catch marks. */
export interface TrueStroke {
  /** When the crew began to press, s; the catch mark comes a little later. */
  readonly atS: number;
  readonly driveS: number;
  /** Catch to next catch, s. */
  readonly periodS: number;
  readonly kind: TrueStrokeKind;
}

/**
 * What really happened in a simulated outing. The true clock starts at the first sample of the track; the state
 * is given on an even grid.
 */
export interface Truth {
  /** Catch marks: from rest the first movement, else the minimum of the true surge, low-passed at 5 Hz; s. */
  readonly catchMarksS: readonly number[];
  readonly stepS: number;
  /** Path length over ground since 0 s at each grid time, m. */
  readonly alongM: Float64Array;
  /** Antenna, m east and north of the origin on the plane that keeps distance and direction from it. */
  readonly eastM: Float64Array;
  readonly northM: Float64Array;
  /** Hull speed over ground, m/s, and through the water. */
  readonly speedMps: Float64Array;
  readonly waterSpeedMps: Float64Array;
  /** Hull surge acceleration without chop, m/s². */
  readonly surgeMps2: Float64Array;
  readonly origin: { readonly latDeg: number; readonly lonDeg: number };
  readonly stretches: readonly TrueStretch[];
  /** IMU clock: true time of its first sample, s, and its drift, ppm. */
  readonly imuStartS: number;
  readonly imuDriftPpm: number;
}

/** The truth of a boat that was moved by forces, with how it was rowed. */
export interface BoatTruth extends Truth {
  /** One a catch mark, in the same order. */
  readonly strokes: readonly TrueStroke[];
  /** Where the bow points, radians from true north, not wrapped. */
  readonly headingRad: Float64Array;
}
