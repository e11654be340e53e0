import { fourier } from '../signal/index.js';
import { CHOP_SETTINGS, EVENT_SETTINGS } from './stroke-settings.js';

/** Points of the transform of one stretch; the stretch and the filter's reach fit in. */
const pointsFor = (samples: number): number => 2 ** Math.ceil(Math.log2(samples));

interface Windowed {
  readonly re: readonly Float64Array[];
  readonly im: readonly Float64Array[];
}

const transformed = (values: Float64Array, from: number, to: number, size: number): Windowed => {
  const re: Float64Array[] = [];
  const im: Float64Array[] = [];
  for (let start = from; start + size <= to; start += size / 2) {
    const one = new Float64Array(size);
    for (let i = 0; i < size; i++)
      one[i] = (0.5 - 0.5 * Math.cos((2 * Math.PI * i) / size)) * values[start + i]!;
    const imaginary = new Float64Array(size);
    fourier(one, imaginary);
    re.push(one);
    im.push(imaginary);
  }
  return { re, im };
};

/**
 * Filter that foretells one signal from another over a stretch, as taps about lag 0: the cross spectrum over the
 * reference's own, and nothing at frequencies where the two are not clearly coherent.
 * @see Widrow et al. 1975, Proc. IEEE 63:1692 (adaptive noise cancelling); the Wiener solution, two-sided
 */
const foretelling = (signal: Windowed, reference: Windowed, size: number): Float64Array | null => {
  const windows = signal.re.length;
  if (windows < CHOP_SETTINGS.leastWindows) return null;
  const re = new Float64Array(size);
  const im = new Float64Array(size);
  // half-overlapped Hann windows count for about 0.95 of as many independent ones (Welch 1967)
  const floor = CHOP_SETTINGS.coherenceFloor / windows;
  for (let k = 0; k < size; k++) {
    let [crossRe, crossIm, own, theirs] = [0, 0, 0, 0];
    for (let w = 0; w < windows; w++) {
      const [sr, si] = [signal.re[w]![k]!, signal.im[w]![k]!];
      const [rr, ri] = [reference.re[w]![k]!, reference.im[w]![k]!];
      crossRe += sr * rr + si * ri;
      crossIm += si * rr - sr * ri;
      own += sr * sr + si * si;
      theirs += rr * rr + ri * ri;
    }
    if (own === 0 || theirs === 0) continue;
    const coherence = (crossRe * crossRe + crossIm * crossIm) / (own * theirs);
    const trust = Math.max(0, (coherence - floor) / (1 - floor)) / Math.max(coherence, 1e-9);
    re[k] = (trust * crossRe) / theirs;
    im[k] = (trust * crossIm) / theirs;
  }
  fourier(re, im, true);
  const half = size / 2;
  for (let i = 0; i < size; i++) {
    const lag = i < half ? i : i - size;
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
  const size = CHOP_SETTINGS.windowSamples;
  const stretch = Math.round(CHOP_SETTINGS.stretchS * rateHz);
  const made = values.slice();
  const weight = new Float64Array(values.length);
  const foretold = new Float64Array(values.length);
  const points = pointsFor(stretch + size);
  for (let from = -stretch / 2; from < values.length; from += stretch / 2) {
    const first = Math.max(0, Math.round(from));
    const to = Math.min(values.length, Math.round(from + stretch));
    const [a, b] = [transformed(left, first, to, size), transformed(referenceLeft, first, to, size)];
    const taps = foretelling(a, b, size);
    if (!taps) continue;
    const filterRe = new Float64Array(points);
    const filterIm = new Float64Array(points);
    for (let i = 0; i < size; i++) filterRe[i < size / 2 ? i : points - size + i] = taps[i]!;
    fourier(filterRe, filterIm);
    const re = new Float64Array(points);
    const im = new Float64Array(points);
    re.set(reference.subarray(first, to));
    fourier(re, im);
    for (let k = 0; k < points; k++) {
      const [r, m] = [re[k]!, im[k]!];
      re[k] = r * filterRe[k]! - m * filterIm[k]!;
      im[k] = r * filterIm[k]! + m * filterRe[k]!;
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
