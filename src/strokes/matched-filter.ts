import { energyOf, fourier, hann, quantileInPlace } from '../signal/index.js';
import { BLOCK_STRIDE, blockPair, FILTER_REACH, filterBlock, filterPair } from './blocks.js';

/** Points of the transform in which filters are designed: 10 s at 25 Hz, twice the longest template and its ringing. */
const DESIGN = 2 * FILTER_REACH;

/** A stretch of signal that is looked for, around its mark. */
export interface Template {
  /** Samples before the mark. */
  readonly before: number;
  readonly values: Float64Array;
}

/** Noise power by frequency, on the design's grid: white noise of variance s² is s² throughout. */
export type NoisePower = Float64Array;

/** Power spectra of half-overlapping windows of a signal, in order of time, up to half the rate of sampling. */
export interface Spectra {
  /** First sample of each window. */
  readonly from: readonly number[];
  readonly power: readonly Float64Array[];
}

/** Samples in one window of {@link spectraOf}. */
export const WINDOW_SAMPLES = DESIGN;

const WINDOW = hann(DESIGN);
const WINDOW_ENERGY = energyOf(WINDOW);

/**
 * Power spectra of windows, half overlapped, Hann (Welch 1967).
 * @param mask 1 where a sample is missing; windows that hold one are left out, unless that leaves none
 */
export const spectraOf = (values: Float64Array, mask: Uint8Array): Spectra => {
  const from: number[] = [];
  for (let start = 0; start + DESIGN <= values.length; start += DESIGN / 2) {
    let whole = true;
    for (let i = start; i < start + DESIGN && whole; i++) whole = mask[i] === 0;
    if (whole) from.push(start);
  }
  const power: Float64Array[] = [];
  const re = new Float64Array(DESIGN);
  const im = new Float64Array(DESIGN);
  for (let w = 0; w < from.length; w += 2) {
    // two real windows as one complex one
    const [p, q] = [from[w]!, from[w + 1] ?? from[w]!];
    for (let i = 0; i < DESIGN; i++) {
      re[i] = WINDOW[i]! * values[p + i]!;
      im[i] = WINDOW[i]! * values[q + i]!;
    }
    fourier(re, im);
    const first = new Float64Array(DESIGN / 2 + 1);
    const second = new Float64Array(DESIGN / 2 + 1);
    for (let k = 0; k <= DESIGN / 2; k++) {
      const m = (DESIGN - k) % DESIGN;
      first[k] = ((re[k]! + re[m]!) ** 2 + (im[k]! - im[m]!) ** 2) / (4 * WINDOW_ENERGY);
      second[k] = ((re[k]! - re[m]!) ** 2 + (im[k]! + im[m]!) ** 2) / (4 * WINDOW_ENERGY);
    }
    power.push(first);
    if (w + 1 < from.length) power.push(second);
  }
  return from.length === 0 && mask.includes(1)
    ? spectraOf(values, new Uint8Array(mask.length))
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

/** Power of strokes like a template that follow one another, on the design's grid: its own spectrum over its length. */
export const powerOf = ({ values }: Template): NoisePower => {
  const re = new Float64Array(DESIGN);
  const im = new Float64Array(DESIGN);
  re.set(values.subarray(0, Math.min(values.length, DESIGN)));
  fourier(re, im);
  return re.map((value, k) => (value * value + im[k]! * im[k]!) / values.length);
};

/** Whitened template as a filter, its taps by lag, in units of the template. */
const designed = ({ template, power }: Sought): Float64Array => {
  const { before, values } = template;
  const half = DESIGN / 2;
  const re = new Float64Array(DESIGN);
  const im = new Float64Array(DESIGN);
  for (let i = 0; i < values.length; i++) re[(i - before + DESIGN) % DESIGN] = values[i]!;
  fourier(re, im);
  let mean = 0;
  for (let k = 0; k < DESIGN; k++) mean += power[k]! / DESIGN;
  for (let k = 0; k < DESIGN; k++) {
    const n = power[k]! + 1e-6 * mean + 1e-12;
    re[k] = re[k]! / n;
    im[k] = im[k]! / n;
  }
  fourier(re, im, true);
  // a match looks ahead of its mark where a filter looks back: lags change their sign
  const taps = new Float64Array(DESIGN);
  for (let lag = 1 - half; lag < half; lag++) {
    const taper = 0.5 + 0.5 * Math.cos((Math.PI * lag) / half);
    taps[half - lag] = re[(lag + DESIGN) % DESIGN]! * taper;
  }
  let gain = 0;
  for (let i = 0; i < values.length; i++) gain += values[i]! * taps[half - (i - before)]!;
  for (let i = 0; i < DESIGN; i++) taps[i] = taps[i]! / gain;
  return taps;
};

/** A template with the noise that it is sought in. */
export interface Sought {
  readonly template: Template;
  readonly power: NoisePower;
}

/** Room for as many values. */
export const roomFor = (values: Float64Array): Float64Array => new Float64Array(values.length);

/**
 * Match two templates against a signal, each in coloured noise, by the filter S*(f)/N(f), cut to the design's
 * length. Two at a time, for one complex transform carries two real results.
 * @param wanted 1 for each block that is to be matched; null for all
 * @param into room for the two results, 0 at first; made anew where it is left out
 * @returns amplitude of each, sample by sample, in units of its template; blocks that are not wanted stay as they were
 * @see Turin 1960, IRE Trans. Inf. Theory 6:311 (matched filter in coloured noise)
 */
export const matchTwo = (
  values: Float64Array,
  one: Sought,
  two: Sought,
  wanted: Uint8Array | null = null,
  into: readonly [Float64Array, Float64Array] = [roomFor(values), roomFor(values)],
): readonly [Float64Array, Float64Array] => {
  const filters = filterPair(designed(one), designed(two));
  const [first, second] = into;
  const made = blockPair();
  for (let from = 0; from < values.length; from += BLOCK_STRIDE) {
    if (wanted && wanted[from / BLOCK_STRIDE] === 0) continue;
    filterBlock(values, from, filters, made);
    const end = FILTER_REACH + Math.min(BLOCK_STRIDE, values.length - from);
    first.set(made.re.subarray(FILTER_REACH, end), from);
    second.set(made.im.subarray(FILTER_REACH, end), from);
  }
  return into;
};
