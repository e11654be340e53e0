/** A direction or a force in the sensor's axes. */
export type Vector = readonly [number, number, number];

/** Scalar product. */
export const dot = (p: Vector, q: Vector): number => p[0] * q[0] + p[1] * q[1] + p[2] * q[2];

/** The direction of a vector that is not nothing. */
export const unit = (v: Vector): Vector => {
  const size = Math.hypot(...v);
  return [v[0] / size, v[1] / size, v[2] / size];
};
