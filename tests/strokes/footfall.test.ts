import { describe, expect, it } from 'vitest';
import { footfallIn } from '../../src/strokes/footfall.js';
import { narrowNoise } from '../simulator/narrow-noise.js';
import { makeRandom } from '../simulator/random.js';

const RATE_HZ = 50;
const LENGTH_S = 20;
const [FROM, TO] = [5 * RATE_HZ, 12 * RATE_HZ];
const made = (at: (atS: number) => number): Float64Array =>
  Float64Array.from({ length: LENGTH_S * RATE_HZ }, (_, i) => at(i / RATE_HZ));
const sine = (hz: number, size: number) => made((atS) => size * Math.sin(2 * Math.PI * hz * atS));
const shown = (heave: Float64Array, surge: Float64Array) => footfallIn(heave, surge, FROM, TO, RATE_HZ)!;

describe('footfallIn', () => {
  it.each([1.6, 1.8, 2, 2.2])(
    'sees %f steps a second as steady, and how much higher than along they go',
    (hz) => {
      const { steadiness, heaveOverSurge } = shown(sine(hz, 1.2), sine(hz, 0.4));
      // later by whole looks, 40 ms apart
      expect(steadiness).toBeGreaterThan(0.95);
      expect(heaveOverSurge).toBeCloseTo(9, 6);
    },
  );

  it('sees no steadiness in waves that a boat meets at the rate of steps: their band is wide', () => {
    const likenesses = Array.from({ length: 12 }, (_, seed) => {
      const waves = narrowNoise(1.8, 1.2, LENGTH_S, makeRandom(seed + 1));
      return shown(made(waves.at), made(waves.turnedAt)).steadiness;
    });
    expect(Math.max(...likenesses)).toBeLessThan(0.75);
    expect(likenesses.reduce((sum, value) => sum + value, 0) / likenesses.length).toBeLessThan(0.45);
  });

  it('looks at the rate of steps alone: long waves count for little', () => {
    const steps = sine(1.8, 0.5);
    const rocking = steps.map((value, i) => value + 2 * Math.sin((2 * Math.PI * 0.25 * i) / RATE_HZ));
    const alone = shown(steps, sine(1.8, 0.5)).heaveOverSurge;
    expect(shown(rocking, sine(1.8, 0.5)).heaveOverSurge).toBeLessThan(1.5 * alone);
  });

  it('is the same at any rate of sampling above its own', () => {
    const at = (rateHz: number) => {
      const up = Float64Array.from({ length: LENGTH_S * rateHz }, (_, i) =>
        Math.sin((3.6 * Math.PI * i) / rateHz),
      );
      return footfallIn(up, up, 5 * rateHz, 12 * rateHz, rateHz)!;
    };
    expect(at(100).steadiness).toBeCloseTo(at(25).steadiness, 2);
  });

  it('is none of a hull that goes up and down less than along', () => {
    expect(footfallIn(sine(1.8, 0.3), sine(1.8, 1), FROM, TO, RATE_HZ)).toBeNull();
  });

  it('is unknown of a stretch too short to hold steps against later ones', () => {
    const short = sine(1.8, 1).subarray(0, 3 * RATE_HZ);
    expect(footfallIn(short, short, RATE_HZ, 1.5 * RATE_HZ, RATE_HZ)).toBeNull();
  });
});
