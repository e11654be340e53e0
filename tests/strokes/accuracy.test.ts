import { describe, expect, it } from 'vitest';
import type { Simulator } from '../accuracy/boats.js';
import { STROKE_CELLS } from '../accuracy/stroke-cells.js';
import { reliabilityOf, type StrokeOutcome, strokeOutcome } from '../accuracy/stroke-trial.js';

/** Few seeds of the situations that `npm run accuracy` prints whole. */
const SEEDS = 2;
const GATED = [
  '2x, calm, 50 Hz',
  '2x, chop 0.25, 50 Hz',
  '2x, chop 0.5, 50 Hz',
  '2x, chop 0.8, 50 Hz',
  '2x, chop 1.1, 25 Hz',
  '2x, chop 2.0, 50 Hz',
  '2x, 2 % lost, 50 Hz',
  '2x, speed 5 Hz',
  'K1, calm',
  'K1, chop 0.25',
  'K1, chop 0.8',
  'moored, calm',
  'moored, rocking 0.8',
  'moored, swell 1.1 Hz 0.3',
  'moored, sea',
  'K1 moored, swell 1.1 Hz 0.3',
  'towed',
  'carried',
  'K1 carried',
  'on a trailer',
];
const SIMULATORS: readonly Simulator[] = ['twin', 'forces'];

describe('strokes on both simulators', () => {
  const cells = STROKE_CELLS.filter(({ name }) => GATED.includes(name));
  const outcomes: StrokeOutcome[] = [];

  it('knows its situations', () => {
    expect(cells.map(({ name }) => name)).toEqual(GATED);
  });

  it.each(cells)('$name', (cell) => {
    for (const simulator of SIMULATORS) {
      const outcome = strokeOutcome(cell, simulator, SEEDS, true);
      outcomes.push(outcome);
      expect(outcome.failures, simulator).toEqual([]);
    }
  });

  it('err at most a tenth as often as plain peak finding', () => {
    const compared = outcomes.filter(({ baselineF1 }) => baselineF1 !== null);
    const errors = (of: (outcome: StrokeOutcome) => number) =>
      compared.reduce((sum, outcome) => sum + 1 - of(outcome), 0);
    expect(compared.length).toBeGreaterThan(5);
    expect(errors(({ f1 }) => f1!)).toBeLessThan(errors(({ baselineF1 }) => baselineF1!) / 10);
  });

  it('above confidence 0.9 at most 1 in 200 is false', () => {
    expect(reliabilityOf(outcomes.flatMap(({ judged }) => judged)).falseAbove).toBeLessThanOrEqual(1 / 200);
  });
});
