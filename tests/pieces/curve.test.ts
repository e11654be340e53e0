import { describe, expect, it } from 'vitest';
import { type Curve, curveResult } from '../../src/contract/curve.js';
import type { Scenario, ScriptStep } from '../../src/contract/scenario.js';
import {
  type CurveBlock,
  curveBlocks,
  curveOf,
  curvePartOf,
  curveResultOf,
  curveSpeed,
} from '../../src/pieces/index.js';
import { simulate } from '../../src/simulate/index.js';
import type { Craft } from '../../src/units/craft.js';
import { trueOuting } from './true-outing.js';

const CRAFTS: readonly Craft[] = ['1x', '2-', '4x', '8+'];

/** A training session: pieces of two minutes at the rates, in this order. */
const session = (seed: number, rates: readonly number[], crew: Scenario['crew']) =>
  trueOuting(
    simulate({
      craft: CRAFTS[seed % CRAFTS.length]!,
      seed,
      ...(crew ? { crew } : {}),
      script: rates.flatMap((rate): ScriptStep[] => [
        { do: 'row', rate_spm: rate, time_s: 120 },
        { do: 'rest', time_s: 25 },
      ]),
      sensors: { gnss: { hz: 1 } },
    }),
  );

const WIDE = [20, 24, 28, 30, 32, 34, 36, 38, 40, 36, 38, 30, 34];

const fitted = (seed: number, rates: readonly number[], crew: Scenario['crew']): Curve => {
  const found = curveOf(curveBlocks(session(seed, rates, crew)), 'ground');
  if ('why' in found) throw new Error(found.why);
  return found;
};

/** Seeds at every change; `npm run accuracy` measures 100 of each simulator. */
const SEEDS = 40;

describe('a curve of rate and speed', () => {
  const constantWork = Array.from({ length: SEEDS }, (_, seed) => fitted(seed, WIDE, {}));

  it('shows no plateau of crews that follow constant work, 95 times in 100', () => {
    const shown = constantWork.filter(({ plateau_spm }) => plateau_spm !== null);
    expect(shown.length).toBeLessThanOrEqual(0.05 * SEEDS);
  });

  it('finds the plateau of a crew that gains no speed beyond 34 spm, at 33 to 35, 95 times in 100', () => {
    const found = Array.from(
      { length: SEEDS / 2 },
      (_, seed) => fitted(seed, WIDE, { plateau_spm: 34 }).plateau_spm,
    );
    const near = found.filter((rate) => rate !== null && rate >= 33 && rate <= 35);
    expect(near.length).toBeGreaterThanOrEqual((0.95 * SEEDS) / 2);
  });

  it('has the exponent of constant work within its bounds, and about 1/3', () => {
    for (const { exponent } of constantWork) expect(Math.abs(exponent - 1 / 3)).toBeLessThan(0.05);
    const covered = constantWork.filter(
      (curve) => curve.exponent_low <= 1 / 3 && curve.exponent_high >= 1 / 3,
    );
    // bounds at 95 %: 32 or fewer of 40 happens less than once in a thousand
    expect(covered.length).toBeGreaterThan(32);
  });

  it('gives the ratios of constant work: 20 to 36 spm is 1.21644 of speed and 0.67580 of distance a stroke', () => {
    // computed: (36/20)^(1/3), (36/20)^(-2/3)
    const exact = (rate: number): CurveBlock => ({
      rateSpm: rate,
      speedMps: 4 * (rate / 20) ** (1 / 3),
      strokeCount: 8,
    });
    const curve = curveOf([20, 22, 24, 26, 28, 30, 32, 34, 36, 21, 25, 33].map(exact), 'ground') as Curve;
    expect(curve.exponent).toBeCloseTo(1 / 3, 9);
    expect(curve.plateau_spm).toBeNull();
    expect(curveSpeed(curve, 36)! / curveSpeed(curve, 20)!).toBeCloseTo(1.21644, 5);
    const per = (rate: number) => curve.points.find((point) => Math.abs(point.rate_spm - rate) < 1)!;
    expect(((60 * curveSpeed(curve, 36)!) / 36 / ((60 * curveSpeed(curve, 20)!) / 20)).toFixed(5)).toBe(
      '0.67580',
    );
    expect(per(30).distance_per_stroke_m).toBeCloseTo((60 * curveSpeed(curve, 30)!) / 30, 9);
  });

  it('says nothing beyond its rates', () => {
    const curve = constantWork[1]!;
    expect(curveSpeed(curve, 16)).toBeNull();
    expect(curveSpeed(curve, 44)).toBeNull();
  });

  it('says why there is none: few strokes, or one rate', () => {
    const short = curveResultOf([curvePartOf(session(1, [20, 30], {}))]);
    const narrow = curveResultOf([curvePartOf(session(1, [20, 20, 21, 20, 21, 20], {}))]);
    for (const result of [short, narrow]) {
      expect(curveResult.parse(result).curve).toBeNull();
      expect(result.warnings.at(-1)!.code).toBe('no-curve');
    }
    expect(short.warnings.at(-1)!.message).toMatch(/only \d+ stretches of steady strokes/);
    expect(narrow.warnings.at(-1)!.message).toMatch(/too narrow for a curve/);
  });

  it('is made of all outings given', () => {
    const parts = [1, 5].map((seed) => curvePartOf(session(seed, WIDE, {})));
    const { curve } = curveResultOf(parts);
    expect(curve!.stroke_count).toBe(parts.flatMap(({ blocks }) => blocks).length * 8);
  });
});
