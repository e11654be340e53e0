import { describe, expect, it } from 'vitest';
import { cycleFigures } from '../../src/strokes/cycle-figures.js';
import { narrowNoise } from '../simulator/narrow-noise.js';
import { makeRandom } from '../simulator/random.js';

const RATE_HZ = 50;
const PERIOD_S = 2;
const COUNT = 10;
const places = Array.from({ length: COUNT + 1 }, (_, i) => (5 + i * PERIOD_S) * RATE_HZ);
const made = (at: (atS: number) => number): Float64Array =>
  Float64Array.from({ length: 35 * RATE_HZ }, (_, i) => at(i / RATE_HZ));

/** A check at the mark and a push after it, the same in every cycle. */
const stroke = (atS: number): number => {
  const share = (((atS - 5) / PERIOD_S) % 1) + (atS < 5 ? 1 : 0);
  return (
    -4 * Math.exp(-(((share > 0.5 ? share - 1 : share) / 0.04) ** 2)) + 2 * Math.sin(2 * Math.PI * share)
  );
};

describe('figures of cycles', () => {
  it('are those of sameness where every cycle is the same', () => {
    const figures = cycleFigures(made(stroke), null, places, RATE_HZ)!;
    expect(figures.count).toBe(COUNT);
    expect(figures.lockedShare).toBeCloseTo(1, 3);
    expect(figures.lockedHarmonics).toBeCloseTo(1, 1);
    expect(figures.intervalChange).toBeCloseTo(0, 9);
    expect(figures.heaveShare).toBeNull();
  });

  it('are none of white noise, without bias', () => {
    const random = makeRandom(3);
    const shares = Array.from({ length: 40 }, () => {
      const noise = made(() => random.normal());
      return cycleFigures(noise, null, places, RATE_HZ)!.lockedShare;
    });
    // never below 0, so its mean is a little above
    expect(shares.reduce((sum, share) => sum + share, 0) / shares.length).toBeLessThan(0.06);
  });

  it('see that a narrow band of waves keeps nothing beyond itself', () => {
    const draws = Array.from({ length: 12 }, (_, seed) => {
      const noise = narrowNoise(1 / PERIOD_S, 1 / 3, 40, makeRandom(seed + 1));
      return cycleFigures(made(noise.at), null, places, RATE_HZ)!;
    });
    const mean = (of: (figures: (typeof draws)[number]) => number) =>
      draws.reduce((sum, figures) => sum + of(figures), 0) / draws.length;
    expect(mean(({ lockedShare }) => lockedShare)).toBeLessThan(0.3);
  });

  it('do not depend on the sign, the size or the place of the signal', () => {
    const one = cycleFigures(
      made(stroke),
      made((t) => 0.1 * stroke(t)),
      places,
      RATE_HZ,
    )!;
    const other = cycleFigures(
      made((t) => -7 * stroke(t - 3)),
      made((t) => 0.7 * stroke(t - 3)),
      places.map((place) => place + 3 * RATE_HZ),
      RATE_HZ,
    )!;
    for (const key of ['lockedShare', 'lockedHarmonics', 'heaveShare'] as const)
      expect(other[key]!).toBeCloseTo(one[key]!, 6);
    expect(one.heaveShare).toBeCloseTo(0.01, 4);
  });

  it('measure how much intervals change', () => {
    const wandering = places.map((place, i) => place + (i % 2 === 0 ? 0 : 0.05 * RATE_HZ * PERIOD_S));
    const figures = cycleFigures(made(stroke), null, wandering, RATE_HZ)!;
    expect(figures.intervalChange).toBeCloseTo(Math.log(1.05 / 0.95), 6);
  });

  it('are unknown of too few cycles', () => {
    expect(cycleFigures(made(stroke), null, places.slice(0, 4), RATE_HZ)).toBeNull();
  });
});
