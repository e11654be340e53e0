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

const sumsOfProducts = (first: Float64Array, second: Float64Array): Float64Array => {
  const sums = new Float64Array(first.length + 1);
  for (let i = 0; i < first.length; i++) sums[i + 1] = sums[i]! + first[i]! * second[i]!;
  return sums;
};

/** Prepare three axes for {@link matchAt}. */
export const matchAxes = (axes: readonly [Float64Array, Float64Array, Float64Array]): MatchAxes => ({
  axes,
  sums: PAIRS.map(([p, q]) => sumsOfProducts(axes[p], axes[q])),
});

/** True where the axes reach over a stretch at a lag. */
export const isWithin = ({ axes }: MatchAxes, from: number, to: number, lag: number): boolean =>
  from + lag >= 0 && to + lag <= axes[0].length;

const sumBetween = (sums: Float64Array, from: number, to: number): number => sums[to]! - sums[from]!;

/**
 * How much of a signal three axes explain at a lag: the share of its power that the best mixture of them makes,
 * 0 to 1 (least squares, slightly ridged). No mount and no sign has to be known.
 * @param signal samples `from` up to, not including, `to` are matched
 * @param power energy of those samples
 * @param lag sample of the axes that meets sample 0 of the signal; the axes reach over the stretch
 */
export const matchAt = (
  signal: Float64Array,
  from: number,
  to: number,
  power: number,
  { axes, sums }: MatchAxes,
  lag: number,
): number => {
  if (power === 0) return 0;
  const x = axes[0];
  const y = axes[1];
  const z = axes[2];
  let cx = 0;
  let cy = 0;
  let cz = 0;
  for (let i = from; i < to; i++) {
    const value = signal[i]!;
    cx += value * x[i + lag]!;
    cy += value * y[i + lag]!;
    cz += value * z[i + lag]!;
  }
  const first = from + lag;
  const end = to + lag;
  const xx = sumBetween(sums[0]!, first, end);
  const xy = sumBetween(sums[1]!, first, end);
  const xz = sumBetween(sums[2]!, first, end);
  const yy = sumBetween(sums[3]!, first, end);
  const yz = sumBetween(sums[4]!, first, end);
  const zz = sumBetween(sums[5]!, first, end);
  const ridge = (RIDGE * (xx + yy + zz)) / 3 + 1e-9;
  const a = xx + ridge;
  const d = yy + ridge;
  const f = zz + ridge;
  // Cramer's rule on the symmetric three by three system.
  const minorX = d * f - yz * yz;
  const minorY = xy * f - yz * xz;
  const minorZ = xy * yz - d * xz;
  const determinant = a * minorX - xy * minorY + xz * minorZ;
  const wx = (cx * minorX - xy * (cy * f - yz * cz) + xz * (cy * yz - d * cz)) / determinant;
  const wy = (a * (cy * f - yz * cz) - cx * minorY + xz * (xy * cz - cy * xz)) / determinant;
  const wz = (a * (d * cz - cy * yz) - xy * (xy * cz - cy * xz) + cx * minorZ) / determinant;
  return Math.max(0, Math.min(1, (cx * wx + cy * wy + cz * wz) / power));
};
