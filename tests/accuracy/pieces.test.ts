import { describe, expect, it } from 'vitest';
import { COMPARED_TRIALS } from './compared-trials.js';
import { CURVE_TRIALS } from './curve-trials.js';
import { EDGE_TRIALS } from './edge-trials.js';
import { measure, type Trial, tableOf } from './frame.js';
import { INTERRUPTED_TRIALS } from './interrupted-trials.js';

const QUICK_EDGES = [
  'edges, 1 Hz positions',
  'edges, 1 Hz cadence',
  'edges, 1 Hz accelerometer',
  'rolling, 1 Hz cadence',
];

/** A few of each at every change; `npm run accuracy` runs them all. */
const QUICK: readonly (readonly [name: string, trial: Trial, seeds: number])[] = [
  [COMPARED_TRIALS[0]!.name, COMPARED_TRIALS[0]!, 1],
  [COMPARED_TRIALS[1]!.name, COMPARED_TRIALS[1]!, 2],
  [CURVE_TRIALS[1]!.name, CURVE_TRIALS[1]!, 6],
  ...EDGE_TRIALS.filter(({ name }) => QUICK_EDGES.includes(name)).map(
    (trial) => [trial.name, trial, 4] as const,
  ),
  ...INTERRUPTED_TRIALS.filter((_, i) => i % 2 === 1).map((trial) => [trial.name, trial, 4] as const),
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
