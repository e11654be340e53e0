/** Tuning of what neighbouring strokes leave of one another. */
const REMAINDER_SETTINGS = Object.freeze({
  /** Points of a cycle: 96 hold 25 Hz over the slowest kayak's cycle and 12 Hz over a slow crew's. */
  points: 96,
  /** Cycles to either side that are averaged, and the fewest that are worth taking out. */
  reach: 6,
  least: 3,
  /** Logarithm of the ratio of two intervals beyond which their strokes are of another shape: a fifth. */
  alike: 0.2,
});

/** Each cycle at even shares of its interval; null for one that is longer than strokes follow one another. */
const cyclesOf = (
  values: Float64Array,
  marks: readonly number[],
  mostInterval: number,
): (Float64Array | null)[] => {
  const { points } = REMAINDER_SETTINGS;
  const cycles: (Float64Array | null)[] = [];
  for (let k = 0; k + 1 < marks.length; k++) {
    const from = marks[k]!;
    const interval = marks[k + 1]! - from;
    if (interval > mostInterval) {
      cycles.push(null);
      continue;
    }
    const cycle = new Float64Array(points + 1);
    for (let q = 0; q <= points; q++) {
      const at = from + (interval * q) / points;
      const low = Math.max(0, Math.min(values.length - 2, Math.floor(at)));
      cycle[q] = values[low]! + (at - low) * (values[low + 1]! - values[low]!);
    }
    cycles.push(cycle);
  }
  return cycles;
};

/**
 * What is left of a signal when each stroke's cycle is taken out by the average of those around it, its own left
 * out: what a cycle shares with its neighbours is stroke, what it does not is noise, and noise that is taken for
 * strokes foresees none of its neighbours (leave one out: Stone 1974, J. R. Stat. Soc. B 36:111).
 * @param marks positions of the strokes in samples, in order, between samples too
 * @param mostInterval longest interval within which one stroke follows another, samples
 */
export const cycleRemainder = (
  values: Float64Array,
  marks: readonly number[],
  mostInterval: number,
): Float64Array => {
  const { points, reach, least, alike } = REMAINDER_SETTINGS;
  const left = values.slice();
  const cycles = cyclesOf(values, marks, mostInterval);
  const average = new Float64Array(points + 1);
  for (let k = 0; k < cycles.length; k++) {
    if (cycles[k] === null) continue;
    const from = marks[k]!;
    const interval = marks[k + 1]! - from;
    average.fill(0);
    let count = 0;
    for (let j = Math.max(0, k - reach); j <= Math.min(cycles.length - 1, k + reach); j++) {
      const other = cycles[j]!;
      if (j === k || other === null) continue;
      if (Math.abs(Math.log((marks[j + 1]! - marks[j]!) / interval)) > alike) continue;
      count++;
      for (let q = 0; q <= points; q++) average[q] = average[q]! + other[q]!;
    }
    if (count < least) continue;
    // noise in the average of so many adds to the cycle's own: what is left has the power of the noise alone
    const unbiased = Math.sqrt(count / (count + 1));
    const end = Math.min(marks[k + 1]!, left.length);
    for (let i = Math.max(0, Math.ceil(from)); i < end; i++) {
      const place = ((i - from) / interval) * points;
      const low = Math.min(points - 1, Math.floor(place));
      const here = average[low]! + (place - low) * (average[low + 1]! - average[low]!);
      left[i] = unbiased * (left[i]! - here / count);
    }
  }
  return left;
};
