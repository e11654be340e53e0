import { fourier } from '../signal/index.js';

/** Points of a block of signal. */
const POINTS = 1024;

/** Samples that a filter may reach to either side: what it spoils at both ends of a block is thrown away. */
export const FILTER_REACH = 128;

/** Samples from one block to the next. */
export const BLOCK_STRIDE = POINTS - 2 * FILTER_REACH;

/** A signal cut into overlapping blocks and transformed once, for any number of filters. */
export interface Blocks {
  readonly size: number;
  readonly re: readonly Float64Array[];
  readonly im: readonly Float64Array[];
}

/** Transform a signal block by block (overlap-save, Stockham 1966). */
export const blocksOf = (values: Float64Array): Blocks => {
  const re: Float64Array[] = [];
  const im: Float64Array[] = [];
  for (let from = 0; from < values.length; from += BLOCK_STRIDE) {
    const block = new Float64Array(POINTS);
    const first = from - FILTER_REACH;
    const start = Math.max(0, first);
    block.set(values.subarray(start, Math.min(values.length, first + POINTS)), start - first);
    const imaginary = new Float64Array(POINTS);
    fourier(block, imaginary);
    re.push(block);
    im.push(imaginary);
  }
  return { size: values.length, re, im };
};

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

/** Put a block through two filters at once: the first's result is real, the second's imaginary. */
export const filterBlock = (blocks: Blocks, block: number, filters: FilterPair, into: BlockPair): void => {
  const blockRe = blocks.re[block]!;
  const blockIm = blocks.im[block]!;
  const filterRe = filters.re;
  const filterIm = filters.im;
  const { re, im } = into;
  for (let k = 0; k < POINTS; k++) {
    re[k] = blockRe[k]! * filterRe[k]! - blockIm[k]! * filterIm[k]!;
    im[k] = blockRe[k]! * filterIm[k]! + blockIm[k]! * filterRe[k]!;
  }
  fourier(re, im, true);
};
