/** Samples at even steps. */
export interface EvenGrid {
  /** Position of the first sample, in the unit of the positions given. */
  readonly start: number;
  readonly step: number;
  readonly columns: readonly Float64Array[];
  /** 1 where no sample lies within the reach allowed: the value there is a straight line across a hole. */
  readonly hole: Uint8Array;
}

/**
 * Signals brought onto even steps. Where samples are denser than the grid each grid value is the mean of the
 * samples within half a step (a box, which keeps noise beyond the new half rate from folding in); where they
 * are sparser, a straight line between neighbours.
 * @param positions increasing positions of the samples
 * @param columns one array a component, as long as `positions`
 * @param step distance between grid points
 * @param reach a grid point between samples farther apart than this is a hole
 */
export const evenGrid = (
  positions: Float64Array,
  columns: readonly Float64Array[],
  step: number,
  reach: number,
): EvenGrid => {
  const count = positions.length;
  const start = positions[0]!;
  const size = Math.floor((positions[count - 1]! - start) / step + 1e-9) + 1;
  const made = columns.map(() => new Float64Array(size));
  const hole = new Uint8Array(size);
  let next = 0;
  for (let k = 0; k < size; k++) {
    const at = start + k * step;
    while (next < count && positions[next]! < at - step / 2) next++;
    let end = next;
    while (end < count && positions[end]! < at + step / 2) end++;
    // two or more samples in the cell on either side of its middle: their mean, moved to the middle by their slope
    if (end - next >= 2) {
      let mean = 0;
      for (let i = next; i < end; i++) mean += positions[i]!;
      mean /= end - next;
      const span = positions[end - 1]! - positions[next]!;
      for (const [c, column] of columns.entries()) {
        let sum = 0;
        for (let i = next; i < end; i++) sum += column[i]!;
        const slope = (column[end - 1]! - column[next]!) / span;
        made[c]![k] = sum / (end - next) + slope * (at - mean);
      }
    } else {
      let after = next;
      while (after < count && positions[after]! < at) after++;
      const right = Math.min(after, count - 1);
      const left = after >= count || positions[right] === at ? right : Math.max(0, right - 1);
      const gap = positions[right]! - positions[left]!;
      if (gap > reach) hole[k] = 1;
      const share = gap > 0 ? (at - positions[left]!) / gap : 0;
      for (const [c, column] of columns.entries())
        made[c]![k] = column[left]! + share * (column[right]! - column[left]!);
    }
  }
  return { start, step, columns: made, hole };
};
