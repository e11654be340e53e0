/** A place on WGS84. */
export interface Place {
  /** Degrees north, -90 to 90. */
  readonly latDeg: number;
  /** Degrees east, -180 to 180. */
  readonly lonDeg: number;
}
