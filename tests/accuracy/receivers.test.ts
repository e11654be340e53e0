import { describe, expect, it } from 'vitest';
import { measure, tableOf } from './frame.js';
import { RECEIVER_TRIALS } from './receiver-trials.js';

/** A quick look at every change; `npm run accuracy` runs them all. */
const SEEDS = 8;

/** The others take as long again; they are in the report alone. */
const LOOKED_AT = /Doppler|speed a mean|reflections of 4 m for 2 min, watch|20 s without fixes, 10 Hz/;

describe('what is stated of figures from receivers as they are', () => {
  it.each(
    RECEIVER_TRIALS.filter(({ name }) => LOOKED_AT.test(name)).map((trial) => [trial.name, trial] as const),
  )('%s', { timeout: 240_000 }, (_, trial) => {
    const outcomes = measure(trial, SEEDS);
    expect(
      outcomes.flatMap(({ failures }) => failures),
      tableOf(trial, outcomes),
    ).toEqual([]);
  });
});
