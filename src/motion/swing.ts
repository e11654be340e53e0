/** Slow swings of a series: what their powers are. */
export interface Swing {
  /** Of each swing, rad/s; 0 for the mean. */
  readonly angularHz: Float64Array;
  /** Its density: a white series of variance s² at a rate f has s² / f. */
  readonly power: Float64Array;
}

/** How swings are weighed. */
export const SWING_SETTINGS = Object.freeze({
  /** Swings are looked at down to this period, s: strokes are shorter by far. */
  fastestS: 15,
  /** Swings next to each other share half of their power under the taper (Hann; Harris 1978, Proc. IEEE 66:51). */
  ownShare: 0.5,
});

/** Density of a first-order process of unit variance, s: 2 τ / (1 + ω² τ²). */
export const firstOrderDensity = (angularHz: number, correlationS: number): number =>
  (2 * correlationS) / (1 + (angularHz * correlationS) ** 2);

/** Density of a critically damped second-order process of unit variance and the same integral of its correlation, s. */
export const secondOrderDensity = (angularHz: number, correlationS: number): number =>
  (2 * correlationS) / (1 + (angularHz * correlationS) ** 2 / 4) ** 2;

/**
 * The slow swings of evenly spaced values, by a periodogram under a Hann taper.
 * @param stepS time between values, s
 * @param first the longest swing, in swings over the whole series; 0 takes the mean in
 */
export const swingOf = (values: Float64Array, stepS: number, first: number): Swing => {
  const spanS = values.length * stepS;
  const count = Math.max(0, Math.floor(spanS / SWING_SETTINGS.fastestS) - first + 1);
  const [cosines, sines] = [new Float64Array(count), new Float64Array(count)];
  let tapers = 0;
  for (let i = 0; i < values.length; i++) {
    const phase = (2 * Math.PI * (i + 0.5)) / values.length;
    const [cos, sin] = [Math.cos(phase), Math.sin(phase)];
    const taper = (1 - cos) / 2;
    tapers += taper * taper;
    const value = taper * values[i]!;
    let [c, s] = [Math.cos(first * phase), Math.sin(first * phase)];
    for (let k = 0; k < count; k++) {
      cosines[k]! += value * c;
      sines[k]! += value * s;
      [c, s] = [c * cos - s * sin, s * cos + c * sin];
    }
  }
  return {
    angularHz: Float64Array.from(cosines, (_, k) => (2 * Math.PI * (first + k)) / spanS),
    power: Float64Array.from(cosines, (cos, k) => ((cos * cos + sines[k]! ** 2) * stepS) / tapers),
  };
};

/** Log-likelihood of swings whose densities are supposed to be so (Whittle 1953, Ark. Mat. 2:423). */
export const swingLikelihood = ({ angularHz, power }: Swing, densities: Float64Array): number => {
  let sum = 0;
  for (let k = 0; k < power.length; k++) {
    // A mean is one number where a swing is two.
    const share = angularHz[k] === 0 ? SWING_SETTINGS.ownShare / 2 : SWING_SETTINGS.ownShare;
    sum -= share * (Math.log(densities[k]!) + power[k]! / densities[k]!);
  }
  return sum;
};
