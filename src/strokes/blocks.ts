import { fourier } from '../signal/index.js';

/** Points of a block: a signal is put through filters block by overlapping block. */
const POINTS = 1024;

/** Samples that a filter may reach to either side: what it spoils at both ends of a block is thrown away. */
export const FILTER_REACH = 128;

/** Samples from one block to the next. */
export const BLOCK_STRIDE = POINTS - 2 * FILTER_REACH;

/** Two real filters as one spectrum: the second one's taps are imaginary, and so is what it lets through. */
export interface FilterPair {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/**
 * Spectrum of two filters.
 * @param first taps by lag, the lag 0 at FILTER_REACH, 2 · FILTER_REACH of them: what comes out at a sample is the sum
 *   of each tap with the sample that lies its lag before
 */
export const filterPair = (first: Float64Array, second: Float64Array): FilterPair => {
  const re = new Float64Array(POINTS);
  const im = new Float64Array(POINTS);
  for (let i = 0; i < 2 * FILTER_REACH; i++) {
    const at = (i - FILTER_REACH + POINTS) % POINTS;
    re[at] = first[i]!;
    im[at] = second[i]!;
  }
  fourier(re, im);
  return { re, im };
};

/** What two filters make of one block. */
export interface BlockPair {
  /** Samples of the block, the first at FILTER_REACH, BLOCK_STRIDE of them. */
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** Room for {@link filterBlock}. */
export const blockPair = (): BlockPair => ({ re: new Float64Array(POINTS), im: new Float64Array(POINTS) });

const blockRe = new Float64Array(POINTS);
const blockIm = new Float64Array(POINTS);

/**
 * Put one block of a signal through two filters at once: the first's result is real, the second's imaginary.
 * @param values signal, nothing before and after it
 * @param from its sample at which the block begins, less the reach
 * @see Stockham 1966 (overlap-save)
 */
export const filterBlock = (
  values: Float64Array,
  from: number,
  filters: FilterPair,
  into: BlockPair,
): void => {
  blockRe.fill(0);
  blockIm.fill(0);
  const first = from - FILTER_REACH;
  const start = Math.max(0, first);
  blockRe.set(values.subarray(start, Math.min(values.length, first + POINTS)), start - first);
  fourier(blockRe, blockIm);
  const filterRe = filters.re;
  const filterIm = filters.im;
  const { re, im } = into;
  for (let k = 0; k < POINTS; k++) {
    re[k] = blockRe[k]! * filterRe[k]! - blockIm[k]! * filterIm[k]!;
    im[k] = blockRe[k]! * filterIm[k]! + blockIm[k]! * filterRe[k]!;
  }
  fourier(re, im, true);
};
