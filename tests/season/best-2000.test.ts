import { describe, expect, it } from 'vitest';
import { seasonBest2000 } from './best-2000.js';

/** Seasons that are simulated: the share within two sd is known to 3 in 100. */
const SEASONS = 120;

/** Mean error allowed, s: the sd of the mean of so many is 0.05 s, and the fastest of several is a little lucky. */
const BIAS_S = 0.2;

describe('the best 2000 m of simulated seasons (1 Hz with Doppler speed)', () => {
  const bests = Array.from({ length: SEASONS }, (_, seed) => seasonBest2000(seed + 1));

  it('lies within its own two sd of the truth 9 times in 10', () => {
    const within = bests.filter(({ reportedS, sdS, trueS }) => Math.abs(reportedS - trueS) <= 2 * sdS);
    expect(within.length / bests.length).toBeGreaterThanOrEqual(0.9);
  });

  it('is neither fast nor slow in the mean', () => {
    const errors = bests.map(({ reportedS, trueS }) => reportedS - trueS);
    const mean = errors.reduce((sum, error) => sum + error, 0) / errors.length;
    expect(Math.abs(mean)).toBeLessThan(BIAS_S);
  });
});
