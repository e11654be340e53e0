import { describe, expect, it } from 'vitest';
import { COMPARED_TRIALS } from './compared-trials.js';
import { measure, tableOf } from './frame.js';

/** One of each simulator at every change; `npm run accuracy` runs them all. */
const SEEDS = 2;

describe('accuracy of what changed between two days', () => {
  it.each(COMPARED_TRIALS.map((trial) => [trial.name, trial] as const))(
    '%s',
    { timeout: 120_000 },
    (_, trial) => {
      const outcomes = measure(trial, SEEDS);
      expect(
        outcomes.flatMap(({ failures }) => failures),
        tableOf(trial, outcomes),
      ).toEqual([]);
    },
  );
});
