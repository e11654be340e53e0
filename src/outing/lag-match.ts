/** Accelerations of a log on an even grid, made ready for matching at any lag. */
export interface MatchAxes {
  readonly axes: readonly [Float64Array, Float64Array, Float64Array];
  /** Running sums of the products of the axes: xx, xy, xz, yy, yz, zz. */
  readonly sums: readonly Float64Array[];
}

const PAIRS = [
  [0, 0],
  [0, 1],
  [0, 2],
  [1, 1],
  [1, 2],
  [2, 2],
] as const;

/** Weight of the prior against axes that hardly moved, as a share of their mean power; 0.005 to 0.05. */
const RIDGE = 0.02;

/** Prepare three axes for {@link matchAt}. */
export const matchAxes = (axes: readonly [Float64Array, Float64Array, Float64Array]): MatchAxes => ({
  axes,
  sums: PAIRS.map(([p, q]) => {
    const sum = new Float64Array(axes[0].length + 1);
    for (let i = 0; i < axes[0].length; i++) sum[i + 1] = sum[i]! + axes[p][i]! * axes[q][i]!;
    return sum;
  }),
});

/**
 * How much of a signal three axes explain at a lag: the share of its power that the best mixture of them makes,
 * 0 to 1 (least squares, slightly ridged). No mount and no sign has to be known.
 * @param signal samples `from` up to, not including, `to` are matched
 * @param lag sample of the axes that meets sample 0 of the signal
 * @returns null where the axes do not reach over the whole stretch
 */
export const matchAt = (
  signal: Float64Array,
  from: number,
  to: number,
  { axes, sums }: MatchAxes,
  lag: number,
): number | null => {
  if (from + lag < 0 || to + lag > axes[0].length) return null;
  const [x, y, z] = axes;
  let [power, cx, cy, cz] = [0, 0, 0, 0];
  for (let i = from; i < to; i++) {
    const value = signal[i]!;
    power += value * value;
    cx += value * x[i + lag]!;
    cy += value * y[i + lag]!;
    cz += value * z[i + lag]!;
  }
  if (power === 0) return 0;
  const sumOf = (pair: number): number => sums[pair]![to + lag]! - sums[pair]![from + lag]!;
  const [xx, xy, xz] = [sumOf(0), sumOf(1), sumOf(2)];
  const [yy, yz, zz] = [sumOf(3), sumOf(4), sumOf(5)];
  const ridge = (RIDGE * (xx + yy + zz)) / 3 + 1e-9;
  const [a, d, f] = [xx + ridge, yy + ridge, zz + ridge];
  // Cramer's rule on the symmetric three by three system.
  const [minorX, minorY, minorZ] = [d * f - yz * yz, xy * f - yz * xz, xy * yz - d * xz];
  const determinant = a * minorX - xy * minorY + xz * minorZ;
  const wx = (cx * minorX - xy * (cy * f - yz * cz) + xz * (cy * yz - d * cz)) / determinant;
  const wy = (a * (cy * f - yz * cz) - cx * minorY + xz * (xy * cz - cy * xz)) / determinant;
  const wz = (a * (d * cz - cy * yz) - xy * (xy * cz - cy * xz) + cx * minorZ) / determinant;
  return Math.max(0, Math.min(1, (cx * wx + cy * wy + cz * wz) / power));
};
