import { describe, expect, it } from 'vitest';
import { seatsResult } from '../../src/contract/seats.js';
import { seatSession } from './seat-session.js';

const SEEDS = Array.from({ length: 10 }, (_, i) => i + 1);

describe.each([
  ['with forces', true],
  ['with prescribed motion', false],
] as const)('seat races simulated %s', (_, dynamic) => {
  it('hold the true worth of a swap within ± 2 sd about 95 times in 100', () => {
    const swaps = SEEDS.flatMap((seed) => seatSession(dynamic, seed, 0.012, 0.5).swaps);
    expect(swaps).toHaveLength(2 * SEEDS.length);
    const held = swaps.filter(({ worthS, trueS, sdS }) => Math.abs(worthS - trueS) < 2 * sdS);
    // 17 of 20 or more, 98 times in 100, where it holds at 95 %
    expect(held.length).toBeGreaterThanOrEqual(17);
    expect(swaps.some(({ shown }) => shown)).toBe(true);
    // never the wrong way round
    const wrong = swaps.filter(({ shown, worthS, trueS }) => shown && Math.sign(worthS) !== Math.sign(trueS));
    expect(wrong).toEqual([]);
  });

  it('show no swap of people who are alike', () => {
    const swaps = SEEDS.slice(0, 5).flatMap((seed) => seatSession(dynamic, seed + 50, 0, 0.5).swaps);
    expect(swaps).toHaveLength(10);
    expect(swaps.filter(({ shown }) => shown)).toEqual([]);
  });
});

describe('a seat race', () => {
  it('is a result of its schema', () => {
    const { result } = seatSession(false, 3, 0.012, 0.5);
    expect(seatsResult.parse(result).margins).toHaveLength(6);
  });

  it('refuses a plan that does not go with the logs', () => {
    const again = (plan: (text: string) => string, files?: string[]) => () =>
      seatSession(false, 3, 0, 0.5, { plan, ...(files ? { files } : {}) });
    expect(again((text) => text.replaceAll('blue', 'green'))).toThrow(
      /plan\.csv, line 3, column boat: no log given is called "green" \(red, blue\)/,
    );
    expect(again((text) => text.split('\n').slice(0, -2).join('\n'))).toThrow(
      /the plan has 5 pieces, and the boats did 6 together \(.* over \d+ m, /,
    );
    expect(again((text) => text, ['a/red.csv', 'b/red.csv', 'blue.csv'])).toThrow(
      /column boat: "red" may be a\/red\.csv or b\/red\.csv: name the log in a column file/,
    );
  });
});
