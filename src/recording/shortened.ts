import type { Channel } from './channel.js';

/** A channel whose long gaps are cut short, so that what works on even steps need not step through them. */
export interface Shortened {
  readonly channel: Channel;
  /** The time on the log's clock of a time on the shortened one, s. */
  readonly toLog: (atS: number) => number;
}

/**
 * Cut every gap that is longer than `longestS` down to it. A log with a week between two outings would fill the
 * memory with the week's even steps.
 */
export const shortened = (channel: Channel, longestS: number): Shortened => {
  const cuts: { readonly afterS: number; readonly removedS: number }[] = [];
  const atS = new Float64Array(channel.atS.length);
  let removedS = 0;
  for (let i = 0; i < atS.length; i++) {
    const at = channel.atS[i]!;
    const stepS = i === 0 ? 0 : at - channel.atS[i - 1]!;
    if (stepS > longestS) {
      cuts.push({ afterS: atS[i - 1]!, removedS: removedS + stepS - longestS });
      removedS += stepS - longestS;
    }
    atS[i] = at - removedS;
  }
  if (cuts.length === 0) return { channel, toLog: (at) => at };
  const lastCut = (at: number): number => {
    let [low, high] = [0, cuts.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (cuts[middle]!.afterS < at) low = middle + 1;
      else high = middle;
    }
    return low - 1;
  };
  const toLog = (at: number): number => {
    const cut = lastCut(at);
    // The second half of what is left of a gap belongs to what follows it.
    const inGap = cut >= 0 && at < cuts[cut]!.afterS + longestS / 2;
    const index = inGap ? cut - 1 : cut;
    return at + (index < 0 ? 0 : cuts[index]!.removedS);
  };
  // The ends of a gap are two samples that follow one another.
  let before = 0;
  const gaps = channel.gaps.map((gap) => {
    while (channel.atS[before]! < gap.fromS) before++;
    return { ...gap, fromS: atS[before]!, toS: atS[before + 1]! };
  });
  return { channel: { ...channel, atS, gaps }, toLog };
};
