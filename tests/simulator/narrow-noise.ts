import type { Random } from './random.js';

/** Step of the noise, s. */
const STEP_S = 0.02;
/** Noise of a narrow band and its quarter-turned companion, read at any time; rms 1. */
export interface NarrowNoise {
  readonly at: (atS: number) => number;
  readonly turnedAt: (atS: number) => number;
}

/**
 * Gaussian noise in a band about `hz`, `octaves` wide between its half-power points, with the skirts of a damped
 * swing: complex noise through a one-pole low-pass, shifted up to its middle. Its envelope wanders by Rayleigh's
 * law, as a wave train's does.
 * @param endS until when it is wanted
 */
export const narrowNoise = (hz: number, octaves: number, endS: number, random: Random): NarrowNoise => {
  const count = Math.floor(endS / STEP_S) + 3;
  const halfHz = (hz * (2 ** (octaves / 2) - 2 ** (-octaves / 2))) / 2;
  const keep = Math.exp(-2 * Math.PI * halfHz * STEP_S);
  const re = new Float64Array(count);
  const im = new Float64Array(count);
  const settle = Math.ceil(1 / (halfHz * STEP_S));
  let [x, y, power] = [0, 0, 0];
  for (let i = -settle; i < count; i++) {
    x = keep * x + (1 - keep) * random.normal();
    y = keep * y + (1 - keep) * random.normal();
    if (i < 0) continue;
    re[i] = x;
    im[i] = y;
    power += x * x + y * y;
  }
  const scale = 1 / Math.sqrt(power / count / 2);
  const read = (column: Float64Array, atS: number): number => {
    const place = Math.max(0, Math.min(count - 1.001, atS / STEP_S));
    const low = Math.floor(place);
    return scale * (column[low]! + (place - low) * (column[low + 1]! - column[low]!));
  };
  const omega = 2 * Math.PI * hz;
  return {
    at: (atS) => read(re, atS) * Math.cos(omega * atS) - read(im, atS) * Math.sin(omega * atS),
    turnedAt: (atS) => read(re, atS) * Math.sin(omega * atS) + read(im, atS) * Math.cos(omega * atS),
  };
};
