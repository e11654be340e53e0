import { ROWING_SETTINGS } from './rowing-settings.js';

/** A short stretch of a log, with what it shows by itself. */
export interface WeighedSpan {
  readonly fromS: number;
  readonly toS: number;
  /** Log odds that it was rowed. */
  readonly evidence: number;
}

/** Chance that rowing has begun or ended between two windows: little from one to the next, even after a long rest. */
const changeBetween = (before: WeighedSpan, after: WeighedSpan): number => {
  const { change, forgetS } = ROWING_SETTINGS;
  const gapS = Math.max(0, after.fromS - before.toS);
  return change + (0.5 - change) * (1 - Math.exp(-gapS / forgetS));
};

/** Log odds carried over a chance of change, as odds. */
const carried = (logOdds: number, change: number): number => {
  const rowed = 1 / (1 + Math.exp(-logOdds));
  const after = rowed * (1 - change) + (1 - rowed) * change;
  return Math.log(after / (1 - after));
};

/**
 * Probability that each window was rowed, by all of them together: a crew that rows goes on rowing, and one that
 * rests goes on resting (forward and backward over a chain of two states: Rabiner 1989, Proc. IEEE 77:257).
 * @param spans in time order
 */
export const rowingProbabilities = (spans: readonly WeighedSpan[]): number[] => {
  const count = spans.length;
  const forward = new Float64Array(count);
  const backward = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const before = i > 0 ? carried(forward[i - 1]!, changeBetween(spans[i - 1]!, spans[i]!)) : 0;
    forward[i] = before + spans[i]!.evidence;
  }
  for (let i = count - 2; i >= 0; i--) {
    const after = backward[i + 1]! + spans[i + 1]!.evidence;
    backward[i] = carried(after, changeBetween(spans[i]!, spans[i + 1]!));
  }
  return Array.from(forward, (logOdds, i) => 1 / (1 + Math.exp(-(logOdds + backward[i]!))));
};
