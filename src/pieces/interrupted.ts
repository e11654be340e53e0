import type { Interval } from '../motion/index.js';
import type { Work } from './work.js';

/** A stop or a slow stretch within a piece. */
export interface Interruption extends Interval {
  /** `stop`: nobody rowed; `slow`: the crew rowed on, lightly. */
  readonly kind: 'stop' | 'slow';
}

/** Work with what interrupted it: one piece. */
export interface Run<Kind extends Work = Work> {
  /** In time order; at least one. */
  readonly works: readonly Kind[];
  /** Between them: one fewer. */
  readonly interruptions: readonly Interruption[];
}

/** When an interruption does not end a piece. */
export const INTERRUPTION_SETTINGS = Object.freeze({
  /** Longest, s, unless the user gives his own: a bridge, a buoy, a crab; intervals rest longer as a rule. */
  longestS: 30,
  /** The same work on both sides: rates and speeds alike within this share; 0.08 to 0.15. */
  rateShare: 0.12,
  speedShare: 0.12,
  /** Each side lasts at least so long, s; 45 to 90, and so many times the interruption. */
  sideS: 60,
  sideTimes: 2,
  /** … where a length was asked for and is not reached yet, s: whoever asks for 2 km means 2 km. */
  askedSideS: 15,
  /** As many pieces of one length with rests of one length are intervals, not one piece interrupted. */
  intervals: 3,
  /** … of one length within this share; 0.1 to 0.15. */
  intervalShare: 0.12,
});

const alike = (a: number | null, b: number | null, share: number): boolean =>
  a === null || b === null || Math.abs(Math.log(a / b)) <= Math.log(1 + share);

const lengthS = ({ fromS, toS }: Interval): number => toS - fromS;

const isSame = (a: Work, b: Work): boolean => {
  const { rateShare, speedShare } = INTERRUPTION_SETTINGS;
  return alike(a.rateSpm, b.rateSpm, rateShare) && alike(a.speedMps, b.speedMps, speedShare);
};

/** Is the gap between two works in a row an interruption of one piece? */
const interrupts = (a: Work, b: Work, longestS: number, lengthAsked: boolean): boolean => {
  const { sideS, sideTimes, askedSideS } = INTERRUPTION_SETTINGS;
  const gapS = b.fromS - a.toS;
  const leastS = lengthAsked ? askedSideS : Math.max(sideS, sideTimes * gapS);
  return gapS <= longestS && isSame(a, b) && lengthS(a) >= leastS && lengthS(b) >= leastS;
};

/** Pieces of one length with rests between, as coaches set them: all but the last, which may be cut short. */
const isIntervals = (works: readonly Work[]): boolean => {
  const { intervals, intervalShare } = INTERRUPTION_SETTINGS;
  if (works.length < intervals) return false;
  const lengths = works.slice(0, works.length > intervals ? -1 : undefined).map(lengthS);
  return Math.max(...lengths) <= (1 + intervalShare) * Math.min(...lengths);
};

/**
 * Work in a row that short stops and slow stretches interrupt, joined.
 * @param works hard work, in time order
 * @param all all work, light too: a gap that holds some was rowed through
 * @param longestS longest interruption, s; 0 joins nothing
 * @param lengthAsked whether a length was asked for, so that a short end of it counts too
 */
export const interruptedRuns = <Kind extends Work>(
  works: readonly Kind[],
  all: readonly Work[],
  longestS: number,
  lengthAsked: boolean,
): readonly Run<Kind>[] => {
  const runs: { works: Kind[]; interruptions: Interruption[] }[] = [];
  for (const work of works) {
    const last = runs.at(-1);
    const before = last?.works.at(-1);
    if (last === undefined || before === undefined || !interrupts(before, work, longestS, lengthAsked)) {
      runs.push({ works: [work], interruptions: [] });
      continue;
    }
    const gap = { fromS: before.toS, toS: work.fromS };
    const rowed = all.some(({ fromS, toS }) => fromS >= gap.fromS && toS <= gap.toS);
    last.works.push(work);
    last.interruptions.push({ ...gap, kind: rowed ? 'slow' : 'stop' });
  }
  return runs.flatMap((run) =>
    isIntervals(run.works) ? run.works.map((work) => ({ works: [work], interruptions: [] })) : [run],
  );
};
