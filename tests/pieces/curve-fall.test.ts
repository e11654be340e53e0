import { describe, expect, it } from 'vitest';
import { type CurveBlock, curveOf, curveSpeed } from '../../src/pieces/index.js';
import { makeRandom } from '../simulator/random.js';

const TOP_SPM = 32;
const speedAt = (rate: number): number => 5 * (rate / TOP_SPM) ** (rate <= TOP_SPM ? 1 / 3 : -0.4);

/** Blocks of a crew whose speed falls beyond 32, with 0.6 % of noise. */
const blocks = (seed: number): CurveBlock[] => {
  const random = makeRandom(seed);
  return [20, 24, 28, 30, 32, 34, 36, 38, 40, 36, 38, 30, 34].flatMap((rate) =>
    Array.from({ length: 5 }, () => {
      const rateSpm = rate * (1 + 0.008 * random.normal());
      return { rateSpm, speedMps: speedAt(rateSpm) * (1 + 0.006 * random.normal()), strokeCount: 8 };
    }),
  );
};

describe('a curve whose speed falls beyond a rate', () => {
  const curves = Array.from({ length: 20 }, (_, seed) => {
    const found = curveOf(blocks(seed + 1), 'ground');
    if ('why' in found) throw new Error(found.why);
    return found;
  });

  it('has that rate within 1 spm, 95 times in 100', () => {
    const near = curves.filter(({ plateau_spm }) => Math.abs((plateau_spm ?? 0) - TOP_SPM) <= 1);
    expect(near.length).toBeGreaterThanOrEqual(19);
  });

  it('gives the speed beyond it within 1 %', () => {
    for (const curve of curves.filter(({ plateau_spm }) => plateau_spm !== null))
      expect(Math.abs(curveSpeed(curve, 38)! / speedAt(38) - 1)).toBeLessThan(0.01);
  });
});
