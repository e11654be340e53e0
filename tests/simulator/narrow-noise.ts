import type { Random } from './random.js';

/** Step of the noise, s. */
const STEP_S = 0.02;
/** Resonators in a row: their skirts are steep enough to call it a band. */
const STAGES = 3;

/** Noise of a narrow band and its quarter-turned companion, read at any time; rms 1. */
export interface NarrowNoise {
  readonly at: (atS: number) => number;
  readonly turnedAt: (atS: number) => number;
}

/**
 * Gaussian noise in a band about `hz`, `octaves` wide between its half-power points: complex noise through one-pole
 * low-passes, shifted up to its middle. Its envelope wanders by Rayleigh's law, as a wave train's does.
 * @param endS until when it is wanted
 */
export const narrowNoise = (hz: number, octaves: number, endS: number, random: Random): NarrowNoise => {
  const count = Math.floor(endS / STEP_S) + 3;
  const widthHz = hz * (2 ** (octaves / 2) - 2 ** (-octaves / 2));
  // one stage is this much wider than all of them together, at half power
  const stageHz = widthHz / 2 / Math.sqrt(2 ** (1 / STAGES) - 1);
  const keep = Math.exp(-2 * Math.PI * stageHz * STEP_S);
  const re = new Float64Array(count);
  const im = new Float64Array(count);
  const state = new Float64Array(2 * STAGES);
  const settle = Math.ceil(5 / (stageHz * STEP_S));
  let power = 0;
  for (let i = -settle; i < count; i++) {
    let [x, y] = [random.normal(), random.normal()];
    for (let k = 0; k < STAGES; k++) {
      x = state[2 * k]! = keep * state[2 * k]! + (1 - keep) * x;
      y = state[2 * k + 1]! = keep * state[2 * k + 1]! + (1 - keep) * y;
    }
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
