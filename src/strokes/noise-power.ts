import { type NoisePower, powerOf, type Spectra, type Template, usualPower } from './matched-filter.js';

/** Least power of any frequency, as a share of the mean: where a sensor carries nothing. */
const FLOOR_SHARE = 1e-4;

/** Values weighted over neighbours by a triangle that reaches so many to either side; they go round in a circle. */
const broadened = (values: Float64Array, reach: number): Float64Array => {
  const size = values.length;
  return values.map((_, k) => {
    let sum = 0;
    for (let j = -reach; j <= reach; j++) sum += (reach + 1 - Math.abs(j)) * values[(k + j + size) % size]!;
    return sum / (reach + 1) ** 2;
  });
};

/**
 * Noise power by frequency: the usual power of windows, its logarithm smoothed over neighbouring frequencies.
 * What strokes leave lies in lines at their harmonics; whitened by those lines they would be whitened away. A
 * logarithm smoothed over a harmonic's spacing passes over lines and keeps the wide band of waves.
 * @param chosen 1 for each window that is to be used; all where none is chosen
 * @param reach points of the spectrum to either side (0.1 Hz each)
 */
export const noisePowerOf = (spectra: Spectra, chosen: Uint8Array | null, reach: number): NoisePower => {
  const power = (chosen && usualPower(spectra, chosen)) ?? usualPower(spectra)!;
  const floor = (FLOOR_SHARE * power.reduce((sum, value) => sum + value, 0)) / power.length;
  const log = power.map((value) => Math.log(value + 1e-12));
  return broadened(log, reach).map((value) => Math.exp(value) + floor);
};

/**
 * Noise with a share of the strokes' own power, for no two strokes are alike.
 * @param reach as above
 */
export const withMismatch = (
  noise: NoisePower,
  template: Template,
  share: number,
  reach: number,
): NoisePower => {
  const strokes = broadened(powerOf(template), reach);
  return noise.map((value, k) => value + share * strokes[k]!);
};
