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

/**
 * What really happened in a simulated outing. The true clock starts at the first sample of the track; the state
 * is given on an even grid.
 */
export interface Truth {
  /** Catch marks by the definition of DESIGN: minimum of the true surge, low-passed at 5 Hz; s. */
  readonly catchMarksS: readonly number[];
  readonly stepS: number;
  /** Path length over ground since 0 s at each grid time, m. */
  readonly alongM: Float64Array;
  /** Antenna's place on a local plane, m east and north of the origin. */
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
