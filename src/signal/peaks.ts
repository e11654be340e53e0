/** A local maximum. */
export interface Peak {
  /** Sample number; the middle of a flat top. */
  readonly index: number;
  readonly height: number;
  /** How far it stands above the higher of the lowest points that part it from higher ground. */
  readonly prominence: number;
}

/** What a peak must have. */
export interface PeakAsk {
  readonly prominence?: number;
  readonly height?: number;
  /** Least number of samples between two peaks; of two that are nearer, the higher stays. */
  readonly distance?: number;
}

const flatTops = (values: Float64Array): number[] => {
  const tops: number[] = [];
  for (let i = 1; i < values.length - 1; i++) {
    if (!(values[i - 1]! < values[i]!)) continue;
    let ahead = i + 1;
    while (ahead < values.length - 1 && values[ahead] === values[i]) ahead++;
    if (values[ahead]! < values[i]!) tops.push((i + ahead - 1) >> 1);
    i = ahead - 1;
  }
  return tops;
};

const spaced = (values: Float64Array, tops: readonly number[], distance: number): number[] => {
  const keep = new Uint8Array(tops.length).fill(1);
  const byHeight = tops.map((_, i) => i).sort((p, q) => values[tops[q]!]! - values[tops[p]!]! || q - p);
  for (const at of byHeight) {
    if (!keep[at]) continue;
    for (let j = at - 1; j >= 0 && tops[at]! - tops[j]! < distance; j--) keep[j] = 0;
    for (let j = at + 1; j < tops.length && tops[j]! - tops[at]! < distance; j++) keep[j] = 0;
  }
  return tops.filter((_, i) => keep[i]);
};

/** Lowest value between each sample and the higher ground before it (after it, if `backward`), with a stack of such ground. */
const lowestToHigher = (values: Float64Array, backward: boolean): Float64Array => {
  const count = values.length;
  const low = new Float64Array(count);
  const stack = new Int32Array(count);
  let depth = 0;
  for (let i = 0; i < count; i++) {
    const at = backward ? count - 1 - i : i;
    const value = values[at]!;
    let least = value;
    while (depth > 0 && values[stack[depth - 1]!]! <= value) {
      depth -= 1;
      least = Math.min(least, low[stack[depth]!]!);
    }
    low[at] = least;
    stack[depth++] = at;
  }
  return low;
};

/** Prominence of each top. */
const prominences = (values: Float64Array, tops: readonly number[]): Float64Array => {
  const left = lowestToHigher(values, false);
  const right = lowestToHigher(values, true);
  const found = new Float64Array(tops.length);
  for (let i = 0; i < found.length; i++) {
    const top = tops[i]!;
    found[i] = values[top]! - Math.max(left[top]!, right[top]!);
  }
  return found;
};

/**
 * Local maxima, in order of time: first by height, then thinned by distance, then by prominence.
 * @param values evenly sampled signal
 * @example peaks(Float64Array.of(0, 1, 0, 3, 1, 3, 0, 4, 0)) // prominences 1 3 3 4
 */
export const peaks = (values: Float64Array, ask: PeakAsk = {}): Peak[] => {
  const { height, distance, prominence } = ask;
  let tops = flatTops(values);
  if (height !== undefined) tops = tops.filter((top) => values[top]! >= height);
  if (distance !== undefined) tops = spaced(values, tops, distance);
  const standing = prominences(values, tops);
  return tops
    .map((index, i) => ({ index, height: values[index]!, prominence: standing[i]! }))
    .filter((peak) => prominence === undefined || peak.prominence >= prominence);
};
