/** Samples at even steps. */
export interface EvenGrid {
  /** Position of the first sample, in the unit of the positions given. */
  readonly start: number;
  readonly step: number;
  readonly columns: readonly Float64Array[];
  /** 1 where no sample lies within the reach allowed: the value there is a straight line across a gap. */
  readonly mask: Uint8Array;
}

/** Which samples make each grid value: the mean of several, moved to the middle, or a line between two. */
interface Cells {
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** Of a mean: how far the middle lies from it, in the unit of the positions; of a line: the share of its way. */
  readonly shift: Float64Array;
  /** Of a mean: distance from its first sample to its last; 0 marks a line. */
  readonly span: Float64Array;
  readonly mask: Uint8Array;
}

const cellsOf = (positions: Float64Array, size: number, step: number, reach: number): Cells => {
  const count = positions.length;
  const start = positions[0]!;
  const from = new Int32Array(size);
  const to = new Int32Array(size);
  const shift = new Float64Array(size);
  const spans = new Float64Array(size);
  const mask = new Uint8Array(size);
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
      from[k] = next;
      to[k] = end;
      shift[k] = at - mean;
      spans[k] = positions[end - 1]! - positions[next]!;
    } else {
      let after = next;
      while (after < count && positions[after]! < at) after++;
      const right = Math.min(after, count - 1);
      const left = after >= count || positions[right] === at ? right : Math.max(0, right - 1);
      const gap = positions[right]! - positions[left]!;
      if (gap > reach) mask[k] = 1;
      from[k] = left;
      to[k] = right;
      shift[k] = gap > 0 ? (at - positions[left]!) / gap : 0;
    }
  }
  return { from, to, shift, span: spans, mask };
};

const valuesIn = ({ from, to, shift, span }: Cells, column: Float64Array): Float64Array => {
  const made = new Float64Array(from.length);
  for (let k = 0; k < made.length; k++) {
    const first = from[k]!;
    const end = to[k]!;
    if (span[k]! > 0) {
      let sum = 0;
      for (let i = first; i < end; i++) sum += column[i]!;
      const slope = (column[end - 1]! - column[first]!) / span[k]!;
      made[k] = sum / (end - first) + slope * shift[k]!;
    } else made[k] = column[first]! + shift[k]! * (column[end]! - column[first]!);
  }
  return made;
};

/**
 * Signals brought onto even steps. Where samples are denser than the grid each grid value is the mean of the
 * samples within half a step (a box, which keeps noise beyond the new half rate from folding in); where they
 * are sparser, a straight line between neighbours.
 * @param positions increasing positions of the samples
 * @param columns one array a component, as long as `positions`
 * @param step distance between grid points
 * @param reach a grid point between samples farther apart than this is a gap
 */
export const evenGrid = (
  positions: Float64Array,
  columns: readonly Float64Array[],
  step: number,
  reach: number,
): EvenGrid => {
  const start = positions[0]!;
  const size = Math.floor((positions[positions.length - 1]! - start) / step + 1e-9) + 1;
  const cells = cellsOf(positions, size, step, reach);
  return { start, step, columns: columns.map((column) => valuesIn(cells, column)), mask: cells.mask };
};
