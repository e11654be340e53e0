import { describe, expect, it } from 'vitest';
import { accelerationNoiseMps2 } from '../../src/outing/acceleration-noise.js';
import type { Channel } from '../../src/recording/index.js';

/** Normal numbers from a small generator of our own (mulberry32, Box & Muller 1958), so that runs repeat. */
const normals = (seed: number): (() => number) => {
  let state = seed;
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
};

const sampled = (count: number, rateHz: number, valueAt: (s: number) => number): Channel => {
  const atS = Float64Array.from({ length: count }, (_, i) => i / rateHz);
  return { name: 'acceleration', atS, columns: [0, 1, 2].map(() => atS.map(valueAt)), gaps: [] };
};

describe('accelerationNoiseMps2', () => {
  it.each([0.05, 0.5])('finds white noise of %f m/s² beneath strokes and knocks', (sd) => {
    const normal = normals(7);
    const channel = sampled(20_000, 100, (s) => {
      const stroke = 3 * Math.sin(2 * Math.PI * 0.6 * s) + Math.sin(2 * Math.PI * 3 * s);
      return stroke + sd * normal() + (normal() > 3 ? 30 : 0);
    });
    expect(accelerationNoiseMps2(channel)! / sd).toBeGreaterThan(0.95);
    expect(accelerationNoiseMps2(channel)! / sd).toBeLessThan(1.1);
  });

  it('knows nothing from a few samples', () => {
    expect(accelerationNoiseMps2(sampled(20, 100, () => 1))).toBeNull();
  });
});
