import { describe, expect, it } from 'vitest';
import { measure, tableOf } from './frame.js';
import { RECEIVER_TRIALS } from './receiver-trials.js';

/** A quick look at every change; `npm run accuracy` runs them all. */
const SEEDS = 8;

describe('what is stated of figures from receivers as they are', () => {
  it.each(
    RECEIVER_TRIALS.filter(({ name }) => name.includes('Doppler')).map(
      (trial) => [trial.name, trial] as const,
    ),
  )('%s', { timeout: 240_000 }, (_, trial) => {
    const outcomes = measure(trial, SEEDS);
    expect(
      outcomes.flatMap(({ failures }) => failures),
      tableOf(trial, outcomes),
    ).toEqual([]);
  });
});
