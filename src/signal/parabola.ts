/** Top or bottom of a parabola. */
export interface Vertex {
  /** Samples from the middle point, -1 to 1. */
  readonly offset: number;
  readonly height: number;
}

/**
 * Vertex of the parabola through three evenly spaced points; the middle point itself where they lie on a line.
 * @example parabolaVertex(0.7, 1, 0.9) // { offset: 0.25, height: 1.0125 }
 */
export const parabolaVertex = (before: number, middle: number, after: number): Vertex => {
  const bend = before - 2 * middle + after;
  if (bend === 0) return { offset: 0, height: middle };
  const offset = Math.max(-1, Math.min(1, (0.5 * (before - after)) / bend));
  return { offset, height: middle - 0.25 * (before - after) * offset };
};
