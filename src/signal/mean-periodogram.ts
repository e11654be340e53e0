import { hann } from './hann.js';
import { fourier } from './spectrum.js';

/**
 * Power by frequency of stretches of one length: the mean of their periodograms under a Hann window, each without its
 * mean (Welch 1967, IEEE Trans. Audio Electroacoust. 15:70-73).
 * @param stretches each of the same power of two of samples; at least one
 * @param rateHz samples a second
 * @returns one-sided density at k · rateHz / length, k from 0 to length / 2, squared units per Hz
 */
export const meanPeriodogram = (stretches: readonly Float64Array[], rateHz: number): Float64Array => {
  const count = stretches[0]!.length;
  const window = hann(count);
  const weight = window.reduce((sum, value) => sum + value * value, 0);
  const power = new Float64Array(count / 2 + 1);
  for (const stretch of stretches) {
    const mean = stretch.reduce((sum, value) => sum + value, 0) / count;
    const re = stretch.map((value, i) => (value - mean) * window[i]!);
    const im = new Float64Array(count);
    fourier(re, im);
    for (let k = 0; k < power.length; k++) {
      const sides = k === 0 || k === count / 2 ? 1 : 2;
      power[k] = power[k]! + (sides * (re[k]! ** 2 + im[k]! ** 2)) / (weight * rateHz * stretches.length);
    }
  }
  return power;
};
