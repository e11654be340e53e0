import { type Outing, rowingIntervalsOf } from '../outing/index.js';
import type { LogSummary } from './log-summary.js';

/** How an outing's rowing is kept and compared: enough to know it again, small enough to keep. */
export const TRACE_SETTINGS = Object.freeze({
  /** Seconds in a step; 5 to 15: a start or a stop is known to a step. */
  stepS: 10,
  /** Fewest steps in common; 30 to 60: 5 min at the least. */
  fewest: 30,
  /** Share of the shorter log that both must cover; 0.5 to 0.9. */
  sharedShare: 0.6,
  /** Share of the steps in which both rowed or both rested; 0.85 to 0.95. */
  sameShare: 0.9,
  /** Median difference of the rates while both rowed, spm; 0.5 to 1: one crew counted by two devices. */
  rateSpm: 0.7,
  /** Fewest changes between rowing and rest in what both cover: even rowing fits anywhere; 3 to 6. */
  changes: 4,
  /** Rates differ by more than this within a trace that can be laid on another, spm; or it changes often enough. */
  rateRangeSpm: 3,
});

/** Rate in steps of the log's own clock, spm: 0 at rest, null where it rowed at no known rate. */
export type RateTrace = readonly (number | null)[];

/** The rates of an outing, step by step; empty where neither strokes nor positions tell when it rowed. */
export const rateTraceOf = (outing: Outing): RateTrace => {
  const { stepS } = TRACE_SETTINGS;
  const rowed = rowingIntervalsOf(outing);
  if (rowed === null) return [];
  const trace: (number | null)[] = Array.from(
    { length: Math.ceil(outing.recording.durationS / stepS) },
    () => 0,
  );
  const sums = trace.map(() => ({ count: 0, spm: 0 }));
  for (const { fromS, toS, strokes } of rowed) {
    for (
      let i = Math.max(0, Math.round(fromS / stepS));
      i < Math.min(trace.length, Math.round(toS / stepS));
      i++
    )
      trace[i] = null;
    for (const { atS, rateSpm } of strokes) {
      const sum = sums[Math.floor(atS / stepS)];
      if (rateSpm === null || sum === undefined) continue;
      sum.count += 1;
      sum.spm += rateSpm;
    }
  }
  return trace.map((value, i) => {
    const { count, spm } = sums[i]!;
    return value === null && count > 0 ? Math.round((10 * spm) / count) / 10 : value;
  });
};

/** How far two traces tell of the same rowing. */
export interface Likeness {
  readonly sameShare: number;
  /** Median difference of the rates, spm; null where not both have any. */
  readonly rateSpm: number | null;
}

/**
 * How alike two traces are at a shift.
 * @param shift steps of the first at which the second begins
 * @returns null where too little is in common, or what is in common would fit anywhere
 */
export const likenessAt = (first: RateTrace, second: RateTrace, shift: number): Likeness | null => {
  const set = TRACE_SETTINGS;
  const [from, to] = [Math.max(0, shift), Math.min(first.length, second.length + shift)];
  const shared = to - from;
  if (shared < Math.max(set.fewest, set.sharedShare * Math.min(first.length, second.length))) return null;
  let [same, changes] = [0, 0];
  const apart: number[] = [];
  let [low, high] = [Number.POSITIVE_INFINITY, 0];
  for (let i = from; i < to; i++) {
    const [a, b] = [first[i]!, second[i - shift]!];
    if ((a === 0) === (b === 0)) same += 1;
    if (i > from && (a === 0) !== (first[i - 1] === 0)) changes += 1;
    if (a && b) {
      apart.push(Math.abs(a - b));
      [low, high] = [Math.min(low, a), Math.max(high, a)];
    }
  }
  if (changes < set.changes && high - low < set.rateRangeSpm) return null;
  apart.sort((a, b) => a - b);
  return { sameShare: same / shared, rateSpm: apart.length === 0 ? null : apart[apart.length >> 1]! };
};

/** Whether two traces tell of the same rowing. */
export const isSameRowing = (likeness: Likeness | null): boolean =>
  likeness !== null &&
  likeness.sameShare >= TRACE_SETTINGS.sameShare &&
  (likeness.rateSpm === null || likeness.rateSpm <= TRACE_SETTINGS.rateSpm);

/**
 * Where on a log with a clock the rowing of one without lies.
 * @returns Unix time of the second's start, s; null where it lies nowhere
 */
export const laidOn = (dated: LogSummary, clockless: LogSummary): number | null => {
  if (dated.outing.start_time === null) return null;
  const { stepS } = TRACE_SETTINGS;
  let best: { readonly shift: number; readonly worth: number } | null = null;
  for (let shift = -clockless.rates.length; shift < dated.rates.length; shift++) {
    const likeness = likenessAt(dated.rates, clockless.rates, shift);
    if (!isSameRowing(likeness)) continue;
    const worth = likeness!.sameShare - 0.1 * (likeness!.rateSpm ?? 0);
    if (best === null || worth > best.worth) best = { shift, worth };
  }
  return best === null ? null : Date.parse(dated.outing.start_time) / 1000 + best.shift * stepS;
};
