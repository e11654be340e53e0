import { describe, expect, it } from 'vitest';
import { measure, tableOf } from './frame.js';
import { MOTION_TRIALS } from './motion-trials.js';

/** A quick look at every change; `npm run accuracy` runs them all. */
const SEEDS = 40;

describe('accuracy of the track', () => {
  it.each(MOTION_TRIALS.map((trial) => [trial.name, trial] as const))(
    '%s',
    { timeout: 240_000 },
    (_, trial) => {
      const outcomes = measure(trial, SEEDS);
      expect(
        outcomes.flatMap(({ failures }) => failures),
        tableOf(trial, outcomes),
      ).toEqual([]);
    },
  );
});
