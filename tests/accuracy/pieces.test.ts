import { describe, expect, it } from 'vitest';
import { COMPARED_TRIALS } from './compared-trials.js';
import { CURVE_TRIALS } from './curve-trials.js';
import { measure, type Trial, tableOf } from './frame.js';

/** A few of each at every change; `npm run accuracy` runs them all. */
const QUICK: readonly (readonly [name: string, trial: Trial, seeds: number])[] = [
  [COMPARED_TRIALS[0]!.name, COMPARED_TRIALS[0]!, 1],
  [COMPARED_TRIALS[1]!.name, COMPARED_TRIALS[1]!, 2],
  [CURVE_TRIALS[1]!.name, CURVE_TRIALS[1]!, 6],
];

describe('accuracy of what is made of pieces', () => {
  it.each(QUICK)('%s', { timeout: 120_000 }, (_, trial, seeds) => {
    const outcomes = measure(trial, seeds);
    expect(
      outcomes.flatMap(({ failures }) => failures),
      tableOf(trial, outcomes),
    ).toEqual([]);
  });
});
