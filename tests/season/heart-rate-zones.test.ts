import { describe, expect, it } from 'vitest';
import { heartRateZones, polarizationIndex } from '../../src/season/index.js';
import { summary } from './summaries.js';

describe('heart-rate zones', () => {
  it('hold the time between their bounds, lower bound included', () => {
    const log = summary(
      {},
      {
        heartRates: [
          { bpm: 139, seconds: 60 },
          { bpm: 140, seconds: 30 },
          { bpm: 170, seconds: 10 },
        ],
      },
    );
    expect(heartRateZones([log], [140, 170])).toEqual([
      { from_bpm: null, to_bpm: 140, duration_s: 60, share_pct: 60 },
      { from_bpm: 140, to_bpm: 170, duration_s: 30, share_pct: 30 },
      { from_bpm: 170, to_bpm: null, duration_s: 10, share_pct: 10 },
    ]);
  });
});

// Treff et al., Front. Physiol. 2019, 10:707; the value of the first line is computed by hand from their formula.
describe('the polarization index', () => {
  it.each([
    [[0.8, 0.05, 0.15], 2.3802],
    [[0.8, 0.2, 0], 0],
    [[0.9, 0, 0.1], Math.log10((0.9 / 0.01) * 0.09 * 100)],
  ])('of %j is %f', (fractions, index) => {
    expect(polarizationIndex(fractions)).toBeCloseTo(index, 4);
  });

  it('is not defined with more in zone 3 than in zone 1, or for other than three zones', () => {
    expect(polarizationIndex([0.3, 0.2, 0.5])).toBeNull();
    expect(polarizationIndex([0.5, 0.5])).toBeNull();
    expect(polarizationIndex([0, 0, 0])).toBeNull();
  });
});
