import { describe, expect, it } from 'vitest';
import { type SeatMargin, SWAP_SETTINGS, seatSwaps, swapRuns } from '../../src/workout/seat-swaps.js';
import { makeRandom } from '../simulator/random.js';

const BASE = [
  ['Ada', 'Bo'],
  ['Eva', 'Fin'],
] as const;
const SWAPPED = [
  ['Eva', 'Bo'],
  ['Ada', 'Fin'],
] as const;
const OTHER = [
  ['Eva', 'Fin'],
  ['Ada', 'Bo'],
] as const;
const STRANGERS = [
  ['Gus', 'Hal'],
  ['Ada', 'Bo'],
] as const;

type Seats = readonly [readonly string[], readonly string[]];

/** Pieces of 200 s, timed to 0.3 s. */
const margins = (seats: readonly Seats[], ahead: (i: number) => number): SeatMargin[] =>
  seats.map(([people, otherPeople], i) => ({
    piece: `${i + 1}`,
    people,
    otherPeople,
    marginS: ahead(i),
    timingSdS: 0.3,
    timeS: 200,
  }));

const swapsOf = (all: readonly SeatMargin[], knownPct: number | null = 0.5) =>
  seatSwaps([all], knownPct).byPair[0]!;

describe('a swap between two boats', () => {
  it('moves the margin', () => {
    const [swap] = swapsOf(margins([BASE, SWAPPED], (i) => [2, -1][i]!));
    expect(swap).toMatchObject({
      people: ['Ada'],
      against: ['Eva'],
      pieces: ['1', '2'],
      swappedBack: false,
      driftS: null,
    });
    expect(swap!.changeS).toBeCloseTo(-3, 12);
    // sd of a margin: 0.3 s of the times, and 0.5 % of 200 s for each crew; of the change √2 more.
    expect(swap!.changeSdS).toBeCloseTo(Math.SQRT2 * Math.hypot(0.3, Math.SQRT2), 12);
  });

  it('is told apart from a steady drift where it was swapped back', () => {
    const drifting = (gain: number) => (i: number) => 2 + 0.7 * i + (i === 1 ? gain : 0);
    const [swap] = swapsOf(margins([BASE, SWAPPED, BASE], drifting(-3)));
    expect(swap!.swappedBack).toBe(true);
    expect(swap!.changeS).toBeCloseTo(-3, 12);
    expect(swap!.driftS).toBeCloseTo(0.7, 12);
    expect(swap!.changeSdS).toBeCloseTo(Math.sqrt(1.5) * Math.hypot(0.3, Math.SQRT2), 12);
  });

  it('is followed by the next, from the crews that sat last', () => {
    const all = margins([BASE, SWAPPED, BASE, SWAPPED, OTHER, SWAPPED], () => 0);
    expect(swapRuns(all).map((run) => run.margins.map(({ piece }) => piece).join(' '))).toEqual([
      '1 2 3 4',
      '4 5 6',
    ]);
    const repeated = margins([BASE, BASE, SWAPPED, SWAPPED, OTHER], () => 0);
    expect(swapRuns(repeated).map((run) => run.margins.map(({ piece }) => piece).join(' '))).toEqual([
      '1 2 3 4',
      '3 4 5',
    ]);
  });

  it('is none where people come from elsewhere, or only change their seats', () => {
    expect(swapRuns(margins([BASE, STRANGERS], () => 0))).toEqual([]);
    expect(
      swapRuns(
        margins(
          [
            BASE,
            [
              ['Bo', 'Ada'],
              ['Fin', 'Eva'],
            ],
          ],
          () => 0,
        ),
      ),
    ).toEqual([]);
  });
});

describe('the variation of crews', () => {
  const back = [BASE, SWAPPED, BASE, SWAPPED, BASE, SWAPPED];

  it('is what the user says, else 1 % (Smith & Hopkins 2012, from race to race)', () => {
    expect(seatSwaps([margins([BASE, SWAPPED], () => 0)], null).variation).toEqual({
      pct: 1,
      by: 'assumed',
      repeatCount: 0,
    });
    expect(seatSwaps([margins([BASE, SWAPPED], () => 0)], 0.4).variation).toMatchObject({
      pct: 0.4,
      by: 'given',
    });
  });

  it('is drawn towards what repeated pieces show', () => {
    const calm = seatSwaps([margins(back, (i) => (i % 2 === 0 ? 1 : -1))], null).variation;
    const wild = seatSwaps(
      [margins(back, (i) => (i % 2 === 0 ? 1 : -1) + [4, -6, -5, 7, 3, -4][i]!)],
      null,
    ).variation;
    expect(calm).toMatchObject({ by: 'assumed and repeats', repeatCount: 3 });
    expect(calm.pct).toBeCloseTo(Math.sqrt(2 / 5), 6);
    expect(wild.pct).toBeGreaterThan(1);
  });

  it('makes ± 2 sd hold 95 times in 100, and of swaps worth nothing fewer than 1 in 40 is shown', () => {
    const random = makeRandom(12);
    const sessions = 1500;
    let [held, shown, wrongWay] = [0, 0, 0];
    for (let k = 0; k < sessions; k++) {
      const gain = k % 2 === 0 ? 0 : 6 * random.normal();
      const seats = [
        [BASE, SWAPPED],
        [BASE, SWAPPED, BASE],
        [BASE, SWAPPED, BASE, SWAPPED],
      ][k % 3]!;
      // 1 % of 200 s.
      const form = () => 2 * random.normal();
      const all = margins(
        seats,
        (i) => (seats[i] === SWAPPED ? gain : 0) + form() - form() + 0.3 * random.normal(),
      );
      const [swap] = swapsOf(all, 1);
      const off = Math.abs(swap!.changeS - gain);
      if (off < 2 * swap!.changeSdS) held += 1;
      const isShown = Math.abs(swap!.changeS) > SWAP_SETTINGS.shownSds * swap!.changeSdS;
      if (gain === 0 && isShown) shown += 1;
      if (gain !== 0 && isShown && Math.sign(swap!.changeS) !== Math.sign(gain)) wrongWay += 1;
    }
    // 95.4 % with a sd of 0.5 %.
    expect(held / sessions).toBeGreaterThan(0.935);
    expect(held / sessions).toBeLessThan(0.972);
    expect(shown / (sessions / 2)).toBeLessThan(1 / 40);
    expect(wrongWay / (sessions / 2)).toBeLessThan(1 / 40);
  });
});
