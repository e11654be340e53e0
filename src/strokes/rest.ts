import type { Interval, Track } from '../motion/track.js';
import { median } from '../signal/index.js';
import { GAUGE_SETTINGS } from './gauge-settings.js';
import type { StrokeSignal } from './stroke-signal.js';

/** s; steps in which rest is looked for. */
const STEP_S = 0.5;

const stretchesOf = (fromS: number, toS: number, isRest: (atS: number) => boolean): Interval[] => {
  const stretches: Interval[] = [];
  let since: number | null = null;
  for (let at = fromS; at <= toS; at += STEP_S) {
    if (isRest(at)) since ??= at;
    else if (since !== null) {
      stretches.push({ fromS: since, toS: at });
      since = null;
    }
  }
  return since === null ? stretches : [...stretches, { fromS: since, toS }];
};

/** Whether the boat is slow, where its track tells. */
const slowness = (signal: StrokeSignal, track: Track | null): ((atS: number) => boolean) | null => {
  const known = signal.speedsMps.flatMap((speed) => (speed === null ? [] : [speed]));
  if (track === null || known.length === 0) return null;
  const limit = GAUGE_SETTINGS.restShare * median(known);
  return (atS) => (track.speedAt(signal.toLog(atS)) ?? Number.POSITIVE_INFINITY) < limit;
};

/** When nobody rows, on the signal's clock, and whether a track given it. */
export interface Rests {
  readonly stretches: readonly Interval[];
  /** True: by the boat's speed, whatever strokes were found; false: where no strokes were found. */
  readonly bySpeed: boolean;
}

/** The rests of a log: by the speed of its track, else by the want of strokes. */
export const restsOf = (signal: StrokeSignal, track: Track | null): Rests => {
  const { surge, marksS } = signal;
  const [startS, endS] = [surge.startS, surge.startS + (surge.mps2.length - 1) / surge.rateHz];
  const { beforeMoveS, afterMoveS, fromStrokeS, leastStretchS } = GAUGE_SETTINGS;
  const slow = slowness(signal, track);
  let next = 0;
  const noStroke = (atS: number): boolean => {
    while (next < marksS.length && marksS[next]! < atS) next++;
    const [before, after] = [marksS[next - 1], marksS[next]];
    return (
      !(before !== undefined && atS - before < fromStrokeS) &&
      !(after !== undefined && after - atS < fromStrokeS / 2)
    );
  };
  const found = stretchesOf(startS, endS, slow ?? noStroke);
  const stretches = slow
    ? found.map(({ fromS, toS }) => ({
        fromS: fromS > startS ? fromS + afterMoveS : fromS,
        toS: toS < endS ? toS - beforeMoveS : toS,
      }))
    : found;
  return {
    stretches: stretches.filter(({ fromS, toS }) => toS - fromS >= leastStretchS),
    bySpeed: slow !== null,
  };
};
