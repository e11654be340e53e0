import { fourier, quantileInPlace } from '../signal/index.js';

/** Points of the transform in which filters are designed: 10 s at 25 Hz, twice the longest template and its ringing. */
const DESIGN = 256;

/** A stretch of signal that is looked for, around its mark. */
export interface Template {
  /** Samples before the mark. */
  readonly before: number;
  readonly values: Float64Array;
}

/** Noise power by frequency, on the design's grid: white noise of variance s² is s² throughout. */
export type NoisePower = Float64Array;

/** Power spectra of half-overlapping windows of a signal, in order of time. */
export interface Spectra {
  /** First sample of each window. */
  readonly from: readonly number[];
  readonly power: readonly NoisePower[];
}

/** Samples in one window of {@link spectraOf}. */
export const WINDOW_SAMPLES = DESIGN;

/**
 * Power spectra of windows, half overlapped, Hann (Welch 1967).
 * @param hole 1 where a sample is missing; windows that hold one are left out, unless that leaves none
 */
export const spectraOf = (values: Float64Array, hole: Uint8Array): Spectra => {
  const window = Float64Array.from(
    { length: DESIGN },
    (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / DESIGN),
  );
  const energy = window.reduce((sum, w) => sum + w * w, 0);
  const from: number[] = [];
  for (let start = 0; start + DESIGN <= values.length; start += DESIGN / 2) {
    let whole = true;
    for (let i = start; i < start + DESIGN && whole; i++) whole = hole[i] === 0;
    if (whole) from.push(start);
  }
  const power: NoisePower[] = [];
  const re = new Float64Array(DESIGN);
  const im = new Float64Array(DESIGN);
  for (let w = 0; w < from.length; w += 2) {
    // two real windows as one complex one
    const [p, q] = [from[w]!, from[w + 1] ?? from[w]!];
    for (let i = 0; i < DESIGN; i++) {
      re[i] = window[i]! * values[p + i]!;
      im[i] = window[i]! * values[q + i]!;
    }
    fourier(re, im);
    const first = new Float64Array(DESIGN);
    const second = new Float64Array(DESIGN);
    for (let k = 0; k < DESIGN; k++) {
      const m = (DESIGN - k) % DESIGN;
      first[k] = ((re[k]! + re[m]!) ** 2 + (im[k]! - im[m]!) ** 2) / (4 * energy);
      second[k] = ((re[k]! - re[m]!) ** 2 + (im[k]! + im[m]!) ** 2) / (4 * energy);
    }
    power.push(first);
    if (w + 1 < from.length) power.push(second);
  }
  return from.length === 0 && hole.includes(1)
    ? spectraOf(values, new Uint8Array(hole.length))
    : { from, power };
};

/**
 * Usual power of windows: the median over them, frequency by frequency, made fit for noise (the median of a
 * power is ln 2 of its mean).
 * @param chosen 1 for each window that is to be used; all where it is left out
 * @returns null where there is none
 */
export const usualPower = ({ power }: Spectra, chosen?: Uint8Array): NoisePower | null => {
  const used = power.filter((_, w) => !chosen || chosen[w] === 1);
  if (used.length === 0) return null;
  const made = new Float64Array(DESIGN);
  const column = new Float64Array(used.length);
  for (let k = 0; k <= DESIGN / 2; k++) {
    for (let w = 0; w < used.length; w++) column[w] = used[w]![k]!;
    made[k] = quantileInPlace(column, 0.5) / Math.LN2;
    if (k > 0) made[DESIGN - k] = made[k]!;
  }
  return made;
};

/** Points of a block of signal; what the filter spoils at both ends is thrown away. */
const BLOCK = 1024;
const STRIDE = BLOCK - DESIGN;

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
  for (let from = 0; from < values.length; from += STRIDE) {
    const block = new Float64Array(BLOCK);
    const first = from - DESIGN / 2;
    const start = Math.max(0, first);
    block.set(values.subarray(start, Math.min(values.length, first + BLOCK)), start - first);
    const imaginary = new Float64Array(BLOCK);
    fourier(block, imaginary);
    re.push(block);
    im.push(imaginary);
  }
  return { size: values.length, re, im };
};

/** Whitened template as a filter, and its gain on the template itself. */
const designed = (template: Template, power: NoisePower) => {
  const half = DESIGN / 2;
  const re = new Float64Array(DESIGN);
  const im = new Float64Array(DESIGN);
  for (const [i, value] of template.values.entries()) re[(i - template.before + DESIGN) % DESIGN] = value;
  fourier(re, im);
  let mean = 0;
  for (let k = 0; k < DESIGN; k++) mean += power[k]! / DESIGN;
  for (let k = 0; k < DESIGN; k++) {
    const n = power[k]! + 1e-6 * mean + 1e-12;
    re[k] = re[k]! / n;
    im[k] = im[k]! / n;
  }
  fourier(re, im, true);
  const taps = new Float64Array(DESIGN);
  for (let i = -half; i < half; i++) {
    const taper = 0.5 + 0.5 * Math.cos((Math.PI * i) / half);
    taps[i + half] = re[(i + DESIGN) % DESIGN]! * taper;
  }
  let gain = 0;
  for (const [i, value] of template.values.entries()) gain += value * taps[i - template.before + half]!;
  return { taps, gain };
};

/** Spectrum of a filter, ready for the blocks; tap DESIGN / 2 is lag 0, and a block begins that much early. */
const filterOf = ({ taps, gain }: { readonly taps: Float64Array; readonly gain: number }) => {
  const re = new Float64Array(BLOCK);
  const im = new Float64Array(BLOCK);
  for (let i = 0; i < DESIGN; i++) re[i] = taps[i]! / gain;
  fourier(re, im);
  return { re, im };
};

/** A template with the noise that it is listened for in. */
export interface Sought {
  readonly template: Template;
  readonly power: NoisePower;
}

/**
 * Match two templates against a signal, each in coloured noise, by the filter S*(f)/N(f), cut to the design's
 * length. Two at a time, for one complex transform carries two real results.
 * @returns amplitude of each, sample by sample, in units of its template
 * @see Turin 1960, IRE Trans. Inf. Theory 6:311 (matched filter in coloured noise)
 */
export const matchTwo = (blocks: Blocks, one: Sought, two: Sought): [Float64Array, Float64Array] => {
  const f = filterOf(designed(one.template, one.power));
  const g = filterOf(designed(two.template, two.power));
  const first = new Float64Array(blocks.size);
  const second = new Float64Array(blocks.size);
  const re = new Float64Array(BLOCK);
  const im = new Float64Array(BLOCK);
  for (const [b, blockRe] of blocks.re.entries()) {
    const blockIm = blocks.im[b]!;
    for (let k = 0; k < BLOCK; k++) {
      // signal times (conjugate of f + i · conjugate of g): the second result comes out imaginary
      const wRe = f.re[k]! + g.im[k]!;
      const wIm = g.re[k]! - f.im[k]!;
      re[k] = blockRe[k]! * wRe - blockIm[k]! * wIm;
      im[k] = blockRe[k]! * wIm + blockIm[k]! * wRe;
    }
    fourier(re, im, true);
    const from = b * STRIDE;
    const length = Math.min(STRIDE, blocks.size - from);
    first.set(re.subarray(0, length), from);
    second.set(im.subarray(0, length), from);
  }
  return [first, second];
};

/** Match one template against a signal; see {@link matchTwo}. */
export const matchTemplate = (blocks: Blocks, template: Template, power: NoisePower): Float64Array => {
  const sought = { template, power };
  return matchTwo(blocks, sought, sought)[0];
};
