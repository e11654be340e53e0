import { CREW_VARIATION_PCT } from '../units/crew-variation.js';

/** A margin between two boats, all over one length. */
export interface SeatMargin {
  readonly piece: string;
  /** Everyone in the boat, and in the other one. */
  readonly people: readonly string[];
  readonly otherPeople: readonly string[];
  /** How far the boat was ahead, s. */
  readonly marginS: number;
  /** sd of the times, s. */
  readonly timingSdS: number;
  /** Mean time of the two boats, s: what the variation of crews is a share of. */
  readonly timeS: number;
}

/** One swap between two boats, and what it did to the margin. */
export interface SeatSwap {
  readonly people: readonly string[];
  readonly against: readonly string[];
  readonly pieces: readonly string[];
  readonly swappedBack: boolean;
  readonly changeS: number;
  readonly changeSdS: number;
  readonly driftS: number | null;
}

export const SWAP_SETTINGS = Object.freeze({
  /** How much a crew's time varies from piece to piece, sd, %; 0.5 to 1.5: within one evening it may be less. */
  variationPct: CREW_VARIATION_PCT,
  /** … and it counts like so many pieces rowed again with the same crews; 1 to 4. */
  worthRepeats: 2,
  /** A swap is shown beyond this many sd: of swaps worth nothing 1 in 80 is; 2.24 would make it 1 in 40. */
  shownSds: 2.5,
});

const without = (people: readonly string[], others: readonly string[]): string[] =>
  people.filter((person) => !others.includes(person));

const sameCrew = (a: SeatMargin, b: SeatMargin): boolean =>
  without(a.people, b.people).length === 0 && without(b.people, a.people).length === 0;

/** Did the two boats swap people between them, and nobody come or go? */
const isSwap = (a: SeatMargin, b: SeatMargin): boolean =>
  !sameCrew(a, b) &&
  without([...a.people, ...a.otherPeople], [...b.people, ...b.otherPeople]).length === 0 &&
  without([...b.people, ...b.otherPeople], [...a.people, ...a.otherPeople]).length === 0;

/** Pieces in a row that two ways to sit explain: A B, A B A, A A B A … */
interface Run {
  readonly margins: readonly SeatMargin[];
  /** 0 or 1: which of the two ways. */
  readonly ways: readonly (0 | 1)[];
}

/** Pieces in a row that only one swap, there and perhaps back, sets apart. */
export const swapRuns = (margins: readonly SeatMargin[]): readonly Run[] => {
  const runs: Run[] = [];
  let from = 0;
  while (from < margins.length) {
    const first = margins[from]!;
    let second: SeatMargin | null = null;
    let to = from;
    const ways: (0 | 1)[] = [];
    for (; to < margins.length; to++) {
      const next = margins[to]!;
      if (sameCrew(next, first) && !isSwap(first, next)) ways.push(0);
      else if (second === null && isSwap(first, next)) {
        second = next;
        ways.push(1);
      } else if (second !== null && sameCrew(next, second) && !isSwap(second, next)) ways.push(1);
      else break;
    }
    if (second !== null) runs.push({ margins: margins.slice(from, to), ways });
    if (to >= margins.length) break;
    // The way they sat last is the first of the next swap.
    const lastWay = ways.at(-1)!;
    let next = to - 1;
    while (next > from && ways[next - 1 - from] === lastWay) next--;
    from = second === null ? to : Math.max(next, from + 1);
  }
  return runs;
};

/** Solve A x = b by elimination, and give the inverse too: at most three unknowns. */
const solved = (matrix: readonly (readonly number[])[]): number[][] => {
  const n = matrix.length;
  const rows = matrix.map((row, i) => [...row, ...Array.from({ length: n }, (_, k) => (k === i ? 1 : 0))]);
  for (let i = 0; i < n; i++) {
    const pivot = rows
      .slice(i)
      .reduce((best, _, k) => (Math.abs(rows[i + k]![i]!) > Math.abs(rows[best]![i]!) ? i + k : best), i);
    [rows[i], rows[pivot]] = [rows[pivot]!, rows[i]!];
    const head = rows[i]![i]!;
    rows[i] = rows[i]!.map((value) => value / head);
    for (let k = 0; k < n; k++) {
      if (k === i) continue;
      const share = rows[k]![i]!;
      rows[k] = rows[k]!.map((value, j) => value - share * rows[i]![j]!);
    }
  }
  return rows.map((row) => row.slice(n));
};

/** A way there and back: the drift from piece to piece is distinguished from the swap. */
const isBack = (ways: readonly (0 | 1)[]): boolean =>
  ways.some((way, i) => way === ways[0] && ways.slice(0, i).some((earlier) => earlier !== way));

interface Fit {
  readonly run: Run;
  readonly estimates: readonly number[];
  /** Of each estimate in the margins: estimate = Σ weight · margin. */
  readonly weights: readonly (readonly number[])[];
  /** Sum of squares left over, s², and how many pieces more than unknowns. */
  readonly leftS2: number;
  readonly spare: number;
}

/** Least squares of margin = base + swap · way, and + drift · order where the swap was undone. */
const fitOf = (run: Run): Fit => {
  const middle = (run.margins.length - 1) / 2;
  const design = run.ways.map((way, i) => [1, way, ...(isBack(run.ways) ? [i - middle] : [])]);
  const unknowns = design[0]!.length;
  const normal = Array.from({ length: unknowns }, (_, j) =>
    Array.from({ length: unknowns }, (_, k) => design.reduce((sum, row) => sum + row[j]! * row[k]!, 0)),
  );
  const inverse = solved(normal);
  const weights = inverse.map((row) =>
    design.map((line) => row.reduce((sum, value, j) => sum + value * line[j]!, 0)),
  );
  const estimates = weights.map((row) =>
    row.reduce((sum, weight, i) => sum + weight * run.margins[i]!.marginS, 0),
  );
  const leftS2 = run.margins.reduce(
    (sum, { marginS }, i) =>
      sum + (marginS - design[i]!.reduce((s, value, j) => s + value * estimates[j]!, 0)) ** 2,
    0,
  );
  return { run, estimates, weights, leftS2, spare: run.margins.length - unknowns };
};

/** How much a crew varies from piece to piece, and how it is known. */
export interface Variation {
  readonly pct: number;
  readonly by: 'given' | 'assumed' | 'assumed and repeats';
  readonly repeatCount: number;
}

/** The usual variation, drawn towards what pieces show that the same crews rowed again. */
const variationOf = (fits: readonly Fit[], knownPct: number | null): Variation => {
  const repeatCount = fits.reduce((sum, { spare }) => sum + spare, 0);
  if (knownPct !== null) return { pct: knownPct, by: 'given', repeatCount };
  const { variationPct, worthRepeats } = SWAP_SETTINGS;
  if (repeatCount === 0) return { pct: variationPct, by: 'assumed', repeatCount };
  // Left-over variance of a margin: of its times, and twice that of a crew.
  const seen = fits.reduce((sum, { run, leftS2, spare }) => {
    if (spare === 0) return sum;
    const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;
    const timing = mean(run.margins.map(({ timingSdS }) => timingSdS ** 2));
    const timeS = mean(run.margins.map((margin) => margin.timeS));
    return sum + (spare * Math.max(0, leftS2 / spare - timing)) / (2 * timeS ** 2);
  }, 0);
  const variance = (worthRepeats * (variationPct / 100) ** 2 + seen) / (worthRepeats + repeatCount);
  return { pct: 100 * Math.sqrt(variance), by: 'assumed and repeats', repeatCount };
};

/** sd of a margin as a measure of who sat where, s. */
export const marginSdS = ({ timingSdS, timeS }: SeatMargin, variationPct: number): number =>
  Math.hypot(timingSdS, (Math.SQRT2 * variationPct * timeS) / 100);

const swapOf = ({ run, estimates, weights }: Fit, variationPct: number): SeatSwap => {
  const { margins, ways } = run;
  const first = margins[0]!;
  const second = margins[ways.indexOf(1)]!;
  const sds = margins.map((margin) => marginSdS(margin, variationPct));
  return {
    people: without(first.people, second.people),
    against: without(second.people, first.people),
    pieces: margins.map(({ piece }) => piece),
    swappedBack: isBack(ways),
    changeS: estimates[1]!,
    changeSdS: Math.hypot(...weights[1]!.map((weight, i) => weight * sds[i]!)),
    driftS: estimates[2] ?? null,
  };
};

/** What margins tell of swaps. */
export interface Swaps {
  readonly variation: Variation;
  /** Of each pair of boats, in the order given. */
  readonly byPair: readonly (readonly SeatSwap[])[];
}

/**
 * What each swap did to the margin between its two boats: least squares over the pieces that only that swap sets
 * apart, with a drift in even steps where the swap was undone (A-B-A).
 * @param pairs margins of each pair of boats, over one length, in the order in which they were rowed
 * @param knownPct variation of a crew from piece to piece as the user knows it, %; null for the usual one
 */
export const seatSwaps = (pairs: readonly (readonly SeatMargin[])[], knownPct: number | null): Swaps => {
  const fits = pairs.map((margins) => swapRuns(margins).map(fitOf));
  const variation = variationOf(fits.flat(), knownPct);
  return { variation, byPair: fits.map((each) => each.map((fit) => swapOf(fit, variation.pct))) };
};
