/** A digital filter: numerator and denominator in powers of z⁻¹, a[0] = 1. */
export interface Filter {
  readonly b: Float64Array;
  readonly a: Float64Array;
}

/** Product of a polynomial in z⁻¹ with complex coefficients and (1 - root·z⁻¹). */
const timesRoot = (
  re: Float64Array,
  im: Float64Array,
  rootRe: number,
  rootIm: number,
  degree: number,
): void => {
  for (let i = degree; i >= 1; i--) {
    const [r, m] = [re[i - 1]!, im[i - 1]!];
    re[i] = re[i]! - (r * rootRe - m * rootIm);
    im[i] = im[i]! - (r * rootIm + m * rootRe);
  }
};

/**
 * Butterworth filter by the bilinear transform with its frequency prewarped.
 * @param order number of poles, 1 to 8
 * @param cutoff half-power frequency as a share of half the sampling rate, 0 to 1 exclusive
 * @param kind which side passes
 * @see Oppenheim & Schafer, Discrete-Time Signal Processing, section on bilinear design
 */
export const butterworth = (order: number, cutoff: number, kind: 'low' | 'high' = 'low'): Filter => {
  if (!(cutoff > 0 && cutoff < 1)) throw new Error(`filter cut-off ${cutoff} is not between 0 and 1`);
  const warped = Math.tan((Math.PI * cutoff) / 2);
  const re = new Float64Array(order + 1);
  const im = new Float64Array(order + 1);
  re[0] = 1;
  for (let k = 0; k < order; k++) {
    const angle = (Math.PI * (2 * k + order + 1)) / (2 * order);
    // analogue pole of the low-pass, or its reciprocal for the high-pass, then z = (1 + p) / (1 - p)
    const size = kind === 'low' ? warped : 1 / warped;
    const [pRe, pIm] = [size * Math.cos(angle), size * Math.sin(angle)];
    const scale = (1 - pRe) ** 2 + pIm ** 2;
    const zRe = (1 - pRe * pRe - pIm * pIm) / scale;
    const zIm = (2 * pIm) / scale;
    timesRoot(re, im, kind === 'low' ? zRe : -zRe, kind === 'low' ? zIm : -zIm, k + 1);
  }
  const a = re;
  const side = kind === 'low' ? 1 : -1;
  const b = new Float64Array(order + 1);
  let choose = 1;
  for (let i = 0; i <= order; i++) {
    b[i] = choose * side ** i;
    choose = (choose * (order - i)) / (i + 1);
  }
  // gain 1 at zero frequency (low) or at half the sampling rate (high)
  let [top, bottom] = [0, 0];
  for (let i = 0; i <= order; i++) {
    top += b[i]! * side ** i;
    bottom += a[i]! * side ** i;
  }
  for (let i = 0; i <= order; i++) b[i] = (b[i]! * bottom) / top;
  return { b, a };
};

/**
 * Cut-off to design with so that a filter run forward and backward has its half-power point where asked.
 * @param cutoff wanted half-power frequency as a share of half the sampling rate
 * @returns the share to hand to {@link butterworth}, order 2
 * @see Winter, Biomechanics and Motor Control of Human Movement: 0.802 on tan(π fc / fs) for two passes
 */
export const twoPassCutoff = (cutoff: number): number => {
  const correction = (2 ** 0.5 - 1) ** 0.25;
  return (2 / Math.PI) * Math.atan(Math.tan((Math.PI * cutoff) / 2) / correction);
};
