import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rank } from '../../src/regatta/index.js';

describe('a ranking', () => {
  it('gives places, margins and whether they show', () => {
    const standings = rank([
      { resultS: 402.5, sdS: 0.1 },
      { resultS: 400, sdS: 0.1 },
      { resultS: 402.6, sdS: 0.1 },
    ]);
    expect(standings.map(({ place }) => place)).toEqual([2, 1, 3]);
    expect(standings[0]!.behindWinnerS).toBeCloseTo(2.5, 9);
    expect(standings[2]!.behindAheadS).toBeCloseTo(0.1, 9);
    expect(standings.map(({ separable }) => separable)).toEqual([true, null, false]);
    expect(standings[1]!.behindAheadS).toBeNull();
  });

  it('shares a place between equal results', () => {
    const tied = rank([
      { resultS: 300, sdS: 0 },
      { resultS: 299, sdS: 0 },
      { resultS: 300, sdS: 0 },
      { resultS: 301, sdS: 0 },
    ]);
    expect(tied.map(({ place }) => place)).toEqual([2, 1, 2, 4]);
    expect(tied[2]!.separable).toBe(false);
  });

  it('is the same in whatever order crews come, and its margins add up', () => {
    const crews = fc.uniqueArray(fc.integer({ min: 3000, max: 9000 }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(crews, fc.integer({ min: 0, max: 11 }), (ticks, turn) => {
        const finishers = ticks.map((tick) => ({ resultS: tick / 10, sdS: 0.2 }));
        const turned = [...finishers.slice(turn % ticks.length), ...finishers.slice(0, turn % ticks.length)];
        const [here, there] = [rank(finishers), rank(turned)];
        finishers.forEach((finisher, i) => {
          const other = there[turned.indexOf(finisher)]!;
          expect(other).toEqual(here[i]);
          const ahead = here.filter(({ place }) => place <= here[i]!.place);
          const sum = ahead.reduce((total, { behindAheadS }) => total + (behindAheadS ?? 0), 0);
          expect(sum).toBeCloseTo(here[i]!.behindWinnerS, 6);
        });
      }),
    );
  });
});
