import { describe, expect, it } from 'vitest';
import { withMissed } from '../../src/strokes/missed-strokes.js';

const candidates = (timesS: readonly number[]) => timesS.map((atS) => ({ atS, score: 1, share: 1 }));
const MOST_S = 7;

describe('withMissed', () => {
  const even = candidates([0, 3, 6, 9, 12, 15, 18, 21, 24]);

  it('puts back one stroke of even rowing, and two in a row', () => {
    expect(withMissed(even, [0, 1, 2, 4, 5, 6, 7, 8], MOST_S)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8]);
    expect(withMissed(even, [0, 1, 2, 5, 6, 7, 8], MOST_S)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8]);
  });

  it('leaves a mask where nothing stood at the place that was due', () => {
    const held = candidates([0, 3, 6, 7.9, 12, 15, 18]);
    expect(withMissed(held, [0, 1, 2, 4, 5, 6], MOST_S)).toEqual([0, 1, 2, 4, 5, 6]);
  });

  it('leaves a change of rate, a pause and a rest as they are', () => {
    const slower = candidates([0, 2, 4, 6, 8, 11.2, 14.4, 17.6]);
    expect(withMissed(slower, [0, 1, 2, 3, 4, 5, 6, 7], MOST_S)).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
    const rest = candidates([0, 3, 6, 9, 12, 15, 18, 21, 24, 27]);
    expect(withMissed(rest, [0, 1, 2, 8, 9], MOST_S)).toEqual([0, 1, 2, 8, 9]);
  });

  it('takes the likelier of two candidates near a due place', () => {
    const two = [
      ...candidates([0, 3, 6]),
      { atS: 8.8, score: 0, share: 1 },
      ...candidates([9.1, 12, 15, 18]),
    ];
    expect(withMissed(two, [0, 1, 2, 5, 6, 7], MOST_S)).toEqual([0, 1, 2, 4, 5, 6, 7]);
  });
});
