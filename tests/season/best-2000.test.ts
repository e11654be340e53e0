import { describe, expect, it } from 'vitest';
import { seasonBest2000 } from './best-2000.js';

/** Seasons that are simulated: the share within two sd is known to 3 in 100. */
const SEASONS = 120;

describe('the best 2000 m of simulated seasons (1 Hz with Doppler speed)', () => {
  it('lies within its own two sd of the truth 9 times in 10', () => {
    const bests = Array.from({ length: SEASONS }, (_, seed) => seasonBest2000(seed + 1));
    const within = bests.filter(({ reportedS, sdS, trueS }) => Math.abs(reportedS - trueS) <= 2 * sdS);
    expect(within.length / bests.length).toBeGreaterThanOrEqual(0.9);
  });
});
