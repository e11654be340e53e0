import { describe, expect, it } from 'vitest';
import { measure, tableOf } from '../accuracy/frame.js';
import { REGATTA_TRIALS } from '../accuracy/regatta-trials.js';

describe('over a hundred simulated regattas', () => {
  it.each(REGATTA_TRIALS)(
    '$name: is as exact and as sure as it says',
    (trial) => {
      const outcomes = measure(trial);
      expect(
        outcomes.flatMap(({ failures }) => failures),
        tableOf(trial, outcomes),
      ).toEqual([]);
      for (const { count } of outcomes) expect(count).toBeGreaterThan(100);
    },
    180_000,
  );
});
