import { PATH_SETTINGS } from './path-settings.js';

/** A place in the signal that may be a stroke. */
export interface Candidate {
  readonly atS: number;
  /** Gain of calling it a stroke: a log-likelihood ratio, bounded. */
  readonly score: number;
  /** Its height, where 1 is usual around it. */
  readonly share: number;
  /** Its height in standard deviations of noise. */
  readonly noiseSds: number;
}

/** What one run of strokes may look like. */
export interface PathLimits {
  readonly leastIntervalS: number;
  readonly mostIntervalS: number;
}

/** Logarithm of each height, and the variance that the noise gives it. */
const heightsOf = (candidates: readonly Candidate[]) => ({
  log: Float64Array.from(candidates, ({ share }) => Math.log(Math.max(0.05, share))),
  variance: Float64Array.from(candidates, ({ noiseSds }) => 1 / Math.max(1, noiseSds) ** 2),
});

/** Best paths that end at each candidate, by the tempo they have there. */
interface Table {
  readonly tempos: number;
  /** Total of the best path that ends at a candidate with a tempo, and the state it came from; -1 for none. */
  readonly best: Float64Array;
  readonly from: Int32Array;
  /** Strokes of the path since it last began, at most `startStrokes`. */
  readonly since: Uint8Array;
  /** Best of all tempos at each candidate. */
  readonly top: Int32Array;
  /** Best path among the candidates before each place: its total and its last state. */
  readonly endTotal: Float64Array;
  readonly endState: Int32Array;
}

/** Reach `i` from `j` at each tempo that the interval between them may be one of. */
const follow = (table: Table, i: number, j: number, place: number, gain: number): void => {
  const { tempos, best, from, since, top } = table;
  const { tempoStep, intervalSd, mostSds, driftCost, jumpCost, startStrokes, startJumpCost } = PATH_SETTINGS;
  const reach = (mostSds * intervalSd) / tempoStep;
  const jumpFrom = j * tempos + top[j]!;
  const starting = since[jumpFrom]! < startStrokes;
  const last = Math.min(tempos - 1, Math.floor(place + reach));
  for (let tempo = Math.max(0, Math.ceil(place - reach)); tempo <= last; tempo++) {
    const own = j * tempos + tempo;
    let most = best[own]!;
    let state = own;
    if (tempo > 0 && best[own - 1]! - driftCost > most) {
      most = best[own - 1]! - driftCost;
      state = own - 1;
    }
    if (tempo < tempos - 1 && best[own + 1]! - driftCost > most) {
      most = best[own + 1]! - driftCost;
      state = own + 1;
    }
    // first strokes are longer than those that follow, never shorter
    const jumped = best[jumpFrom]! - (starting && tempo < top[j]! ? startJumpCost : jumpCost);
    if (jumped > most) {
      most = jumped;
      state = jumpFrom;
    }
    const sds = ((place - tempo) * tempoStep) / intervalSd;
    const total = most + gain - 0.5 * sds * sds;
    const to = i * tempos + tempo;
    if (total > best[to]!) {
      best[to] = total;
      from[to] = state;
      since[to] = Math.min(startStrokes, since[state]! + 1);
    }
  }
};

/**
 * The likeliest sequence of strokes among candidates: a semi-Markov chain whose intervals scatter about a tempo
 * that itself drifts, jumps at a cost, and begins anew at a greater one; with the sum of the scores, less a cost
 * for every change of height that the noise does not explain. Found exactly, by dynamic programming over
 * candidates and tempos: a stroke that stands low is kept where the sequence before and after it holds it.
 * @param candidates in time order
 * @returns positions in `candidates`, and the total
 * @see Bellman 1957; Viterbi 1967; Yu 2010, Artificial Intelligence 174:215 (hidden semi-Markov models)
 */
export const strokePath = (
  candidates: readonly Candidate[],
  limits: PathLimits,
): { readonly chosen: readonly number[]; readonly total: number } => {
  const { tempoStep, heightSd, mostHeightCost, strokeCost, beginCost } = PATH_SETTINGS;
  const count = candidates.length;
  const lowest = Math.log(limits.leastIntervalS);
  const tempos = Math.ceil((Math.log(limits.mostIntervalS) - lowest) / tempoStep) + 1;
  const table: Table = {
    tempos,
    best: new Float64Array(count * tempos),
    from: new Int32Array(count * tempos),
    since: new Uint8Array(count * tempos),
    top: new Int32Array(count),
    endTotal: new Float64Array(count + 1),
    endState: new Int32Array(count + 1).fill(-1),
  };
  const { best, from, top, endTotal, endState } = table;
  const height = heightsOf(candidates);
  let first = 0;
  let free = 0;
  for (let i = 0; i < count; i++) {
    const { atS, score } = candidates[i]!;
    while (free < i && candidates[free]!.atS <= atS - limits.leastIntervalS) free++;
    while (atS - candidates[first]!.atS > limits.mostIntervalS) first++;
    const gain = score - strokeCost;
    // a path begins at any tempo; `since` is 0 there
    best.fill(endTotal[free]! + gain - beginCost, i * tempos, (i + 1) * tempos);
    from.fill(endState[free]!, i * tempos, (i + 1) * tempos);
    for (let j = first; j < free; j++) {
      const apart = height.log[i]! - height.log[j]!;
      const variance = heightSd * heightSd + height.variance[i]! + height.variance[j]!;
      const change = Math.min(mostHeightCost, (0.5 * apart * apart) / variance);
      const place = (Math.log(atS - candidates[j]!.atS) - lowest) / tempoStep;
      follow(table, i, j, place, gain - change);
    }
    let state = i * tempos;
    for (let k = state + 1; k < (i + 1) * tempos; k++) if (best[k]! > best[state]!) state = k;
    top[i] = state - i * tempos;
    const ends = best[state]! > endTotal[i]!;
    endTotal[i + 1] = ends ? best[state]! : endTotal[i]!;
    endState[i + 1] = ends ? state : endState[i]!;
  }
  const chosen: number[] = [];
  for (let state = endState[count]!; state >= 0; state = from[state]!)
    chosen.push(Math.floor(state / tempos));
  return { chosen: chosen.reverse(), total: endTotal[count]! };
};
