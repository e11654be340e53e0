import { fourier } from '../signal/index.js';
import { CHOP_SETTINGS, EVENT_SETTINGS } from './stroke-settings.js';

/** Points of the transform of one stretch; the stretch and the filter's reach fit in. */
const pointsFor = (samples: number): number => 2 ** Math.ceil(Math.log2(samples));

const SIZE = CHOP_SETTINGS.windowSamples;
const HANN = Float64Array.from({ length: SIZE }, (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / SIZE));

/**
 * Filter that foretells one signal from another over a stretch, as taps about lag 0: the cross spectrum over the
 * reference's own, and nothing at frequencies where the two are not clearly coherent. Both signals are real, so
 * the reference is transformed as the imaginary part of the other (Press et al., Numerical Recipes, 12.3).
 * @see Widrow et al. 1975, Proc. IEEE 63:1692 (adaptive noise cancelling); the Wiener solution, two-sided
 */
const foretelling = (
  signal: Float64Array,
  reference: Float64Array,
  from: number,
  to: number,
): Float64Array | null => {
  const half = SIZE / 2;
  const windows = Math.max(0, Math.floor((to - from - SIZE) / half) + 1);
  if (windows < CHOP_SETTINGS.leastWindows) return null;
  const re = new Float64Array(SIZE);
  const im = new Float64Array(SIZE);
  const [crossRe, crossIm, own, theirs] = Array.from({ length: 4 }, () => new Float64Array(half + 1)) as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  for (let w = 0; w < windows; w++) {
    const start = from + w * half;
    for (let i = 0; i < SIZE; i++) {
      re[i] = HANN[i]! * signal[start + i]!;
      im[i] = HANN[i]! * reference[start + i]!;
    }
    fourier(re, im);
    for (let k = 0; k <= half; k++) {
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
  }
  // half-overlapped Hann windows count for about 0.95 of as many independent ones (Welch 1967)
  const floor = CHOP_SETTINGS.coherenceFloor / windows;
  re.fill(0);
  im.fill(0);
  for (let k = 0; k <= half; k++) {
    if (own[k] === 0 || theirs[k] === 0) continue;
    const coherence = (crossRe[k]! * crossRe[k]! + crossIm[k]! * crossIm[k]!) / (own[k]! * theirs[k]!);
    const gain = Math.hypot(crossRe[k]!, crossIm[k]!) / theirs[k]!;
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
  for (let i = 0; i < SIZE; i++) {
    const lag = i < half ? i : i - SIZE;
    re[i] = re[i]! * (0.5 + 0.5 * Math.cos((Math.PI * lag) / half));
  }
  return re;
};

/**
 * A surge with what the waves put into it taken out, as far as another axis (heave, pitch rate) foretells it.
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
): Float64Array => {
  const { rateHz } = EVENT_SETTINGS;
  const stretch = Math.round(CHOP_SETTINGS.stretchS * rateHz);
  const made = values.slice();
  const weight = new Float64Array(values.length);
  const foretold = new Float64Array(values.length);
  const points = pointsFor(stretch + SIZE);
  const re = new Float64Array(points);
  const im = new Float64Array(points);
  for (let from = -stretch / 2; from < values.length; from += stretch / 2) {
    const first = Math.max(0, Math.round(from));
    const to = Math.min(values.length, Math.round(from + stretch));
    const taps = foretelling(left, referenceLeft, first, to);
    if (!taps) continue;
    re.fill(0);
    im.fill(0);
    re.set(reference.subarray(first, to));
    for (let i = 0; i < SIZE; i++) im[i < SIZE / 2 ? i : points - SIZE + i] = taps[i]!;
    fourier(re, im);
    // The two transforms are told apart and multiplied: with z of both, (z² - conj(mirror)²) / 4i.
    for (let k = 0; k <= points / 2; k++) {
      const m = (points - k) % points;
      const zr = re[k]!;
      const zi = im[k]!;
      const mr = re[m]!;
      const mi = -im[m]!;
      const real = zr * zr - zi * zi - (mr * mr - mi * mi);
      const imaginary = 2 * (zr * zi - mr * mi);
      re[k] = imaginary / 4;
      im[k] = -real / 4;
      re[m] = re[k]!;
      im[m] = m === k ? 0 : -im[k]!;
    }
    fourier(re, im, true);
    for (let i = first; i < to; i++) {
      const w = 1 - Math.abs((i - from) / (stretch / 2) - 1) + 1e-6;
      weight[i] = weight[i]! + w;
      foretold[i] = foretold[i]! + w * re[i - first]!;
    }
  }
  for (let i = 0; i < made.length; i++) if (weight[i]! > 0) made[i] = made[i]! - foretold[i]! / weight[i]!;
  return made;
};
