import { difference, fourier, hann } from '../signal/index.js';
import { BLOCK_STRIDE, blockPair, FILTER_REACH, filterBlock, filterPair } from './blocks.js';
import { CHOP_SETTINGS } from './stroke-settings.js';

/** Samples of one window of the spectra: 10 s, which parts waves from strokes, and the reach of a filter. */
const SIZE = 2 * FILTER_REACH;
const HALF = SIZE / 2;
const HANN = hann(SIZE);

/** Samples over which one filter fades out and the next one in. */
const FADE = CHOP_SETTINGS.fadeBlocks * BLOCK_STRIDE;

/** Spectra of a signal and its reference, summed over windows, at frequencies 0 to half the rate of sampling. */
interface CrossSpectrum {
  windows: number;
  readonly crossRe: Float64Array;
  readonly crossIm: Float64Array;
  readonly own: Float64Array;
  readonly theirs: Float64Array;
}

const noSpectrum = (): CrossSpectrum => ({
  windows: 0,
  crossRe: new Float64Array(HALF + 1),
  crossIm: new Float64Array(HALF + 1),
  own: new Float64Array(HALF + 1),
  theirs: new Float64Array(HALF + 1),
});

/** Add a window to its sum; both signals are transformed at once, lying in `re` and `im`, transformed already. */
const addWindow = (sum: CrossSpectrum, re: Float64Array, im: Float64Array): void => {
  const { crossRe, crossIm, own, theirs } = sum;
  for (let k = 0; k <= HALF; k++) {
    const mirror = (SIZE - k) % SIZE;
    const sr = (re[k]! + re[mirror]!) / 2;
    const si = (im[k]! - im[mirror]!) / 2;
    const rr = (im[k]! + im[mirror]!) / 2;
    const ri = (re[mirror]! - re[k]!) / 2;
    crossRe[k] = crossRe[k]! + sr * rr + si * ri;
    crossIm[k] = crossIm[k]! + si * rr - sr * ri;
    own[k] = own[k]! + sr * sr + si * si;
    theirs[k] = theirs[k]! + rr * rr + ri * ri;
  }
  sum.windows += 1;
};

/**
 * Cross spectra over every FADE samples, of windows that begin there. Both signals are real, so the reference is
 * transformed as the imaginary part of the other (Press et al., Numerical Recipes, 12.3).
 */
const crossSpectra = (signal: Float64Array, reference: Float64Array): CrossSpectrum[] => {
  const made: CrossSpectrum[] = [];
  const re = new Float64Array(SIZE);
  const im = new Float64Array(SIZE);
  for (let from = 0; from < signal.length; from += FADE) {
    const sum = noSpectrum();
    for (let start = from; start < from + FADE && start + SIZE <= signal.length; start += HALF) {
      for (let i = 0; i < SIZE; i++) {
        re[i] = HANN[i]! * signal[start + i]!;
        im[i] = HANN[i]! * reference[start + i]!;
      }
      fourier(re, im);
      addWindow(sum, re, im);
    }
    made.push(sum);
  }
  return made;
};

const together = (one: CrossSpectrum | undefined, two: CrossSpectrum | undefined): CrossSpectrum => {
  const sum = noSpectrum();
  for (const part of [one, two]) {
    if (!part) continue;
    sum.windows += part.windows;
    for (let k = 0; k <= HALF; k++) {
      sum.crossRe[k] = sum.crossRe[k]! + part.crossRe[k]!;
      sum.crossIm[k] = sum.crossIm[k]! + part.crossIm[k]!;
      sum.own[k] = sum.own[k]! + part.own[k]!;
      sum.theirs[k] = sum.theirs[k]! + part.theirs[k]!;
    }
  }
  return sum;
};

/**
 * Filter that predicts one signal from another, as taps by lag (see `filterPair`): the cross spectrum over the
 * reference's own, and nothing at frequencies where the two are not clearly coherent.
 * @returns null where there are too few windows to tell
 * @see Widrow et al. 1975, Proc. IEEE 63:1692 (adaptive noise cancelling); the Wiener solution, two-sided
 */
const predicting = ({ windows, crossRe, crossIm, own, theirs }: CrossSpectrum): Float64Array | null => {
  if (windows < CHOP_SETTINGS.leastWindows) return null;
  const re = new Float64Array(SIZE);
  const im = new Float64Array(SIZE);
  // half-overlapped Hann windows count for about 0.95 of as many independent ones (Welch 1967)
  const floor = CHOP_SETTINGS.coherenceFloor / windows;
  for (let k = 0; k <= HALF; k++) {
    if (own[k] === 0 || theirs[k] === 0) continue;
    const cross = crossRe[k]! * crossRe[k]! + crossIm[k]! * crossIm[k]!;
    const coherence = cross / (own[k]! * theirs[k]!);
    const gain = Math.sqrt(cross) / theirs[k]!;
    // more than any wave does: the strokes' own trace in the reference, which would take the strokes out
    if (gain > CHOP_SETTINGS.mostGain) continue;
    const trust = Math.max(0, (coherence - floor) / (1 - floor)) / Math.max(coherence, 1e-9);
    const mirror = (SIZE - k) % SIZE;
    re[k] = (trust * crossRe[k]!) / theirs[k]!;
    im[k] = (trust * crossIm[k]!) / theirs[k]!;
    re[mirror] = re[k]!;
    if (mirror !== k) im[mirror] = -im[k]!;
  }
  fourier(re, im, true);
  const taps = new Float64Array(SIZE);
  for (let lag = -HALF; lag < HALF; lag++)
    taps[lag + HALF] = re[(lag + SIZE) % SIZE]! * (0.5 + 0.5 * Math.cos((Math.PI * lag) / HALF));
  return taps;
};

/**
 * What a reference predicts of a signal: learnt anew over every two fades, each filter at its full in the middle
 * of its stretch.
 */
const predicted = (
  reference: Float64Array,
  left: Float64Array,
  referenceLeft: Float64Array,
): Float64Array => {
  const spectra = crossSpectra(left, referenceLeft);
  const filters = Array.from({ length: spectra.length + 1 }, (_, s) =>
    predicting(together(spectra[s - 1], spectra[s])),
  );
  const made = new Float64Array(reference.length);
  const pair = blockPair();
  for (let s = 0; s < spectra.length; s++) {
    // where one of the two knows nothing the other stands alone
    const going = filters[s] ?? filters[s + 1];
    const coming = filters[s + 1] ?? going;
    if (!going || !coming) continue;
    const filtersHere = filterPair(going, coming);
    for (let from = s * FADE; from < Math.min((s + 1) * FADE, made.length); from += BLOCK_STRIDE) {
      filterBlock(reference, from, filtersHere, pair);
      const count = Math.min(BLOCK_STRIDE, made.length - from);
      for (let i = 0; i < count; i++) {
        const before = pair.re[FILTER_REACH + i]!;
        const share = (from + i - s * FADE) / FADE;
        made[from + i] = before + share * (pair.im[FILTER_REACH + i]! - before);
      }
    }
  }
  return made;
};

/**
 * A surge with what the waves put into it taken out, as far as another axis (heave, pitch rate) predicts it.
 * Waves move a hull in all its axes at once, strokes mostly along it. Learnt anew over every stretch, for the
 * boat turns and meets the waves from another side.
 * @param values surge
 * @param reference the other axis
 * @param left surge with the strokes known so far taken out: what the filter is learnt from
 * @param referenceLeft the reference, likewise
 */
export const withoutChop = (
  values: Float64Array,
  reference: Float64Array,
  left: Float64Array,
  referenceLeft: Float64Array,
): Float64Array => difference(values, predicted(reference, left, referenceLeft));
