import type { AskedStep } from './asked-step.js';

/** Rowing at one level that may be a step of the plan. */
export interface Rowed {
  readonly fromS: number;
  readonly toS: number;
  readonly rateSpm: number | null;
  readonly speedMps: number | null;
  readonly distanceM: number | null;
  /** No rest between the rowing before and this. */
  readonly follows: boolean;
}

/** A step and the rowing, from one index to another included, that it was rowed in; several steps share one work. */
export interface Match {
  readonly firstStep: number;
  readonly lastStep: number;
  readonly firstWork: number;
  readonly lastWork: number;
}

/** How asked and rowed are reported to belong together: costs, all on one scale on which 3 is a step missed. */
export const MATCH_SETTINGS = Object.freeze({
  /** A step that was not rowed; 2 to 4. */
  missed: 3,
  /** Rowing between two steps that belongs to none; more where it is as hard as the plan. */
  lightBetween: 0.1,
  extra: 1.6,
  /** Rowing as hard as the plan before its first step: a burst while warming up, or the first step itself. */
  hardBefore: 0.4,
  /** Steps that share one work were rowed for at least this share of their length; 0.8 to 0.95. */
  sharedShare: 0.85,
  /** A step cut short by its whole length, and one as long again as asked. */
  short: 3,
  long: 5,
  /** Lengths within this share cost nothing; 0.03 to 0.06: a stroke is finished. */
  closeShare: 0.04,
  /** Shorter than this share of a step is no attempt at it; 0.15 to 0.35. */
  attemptShare: 0.25,
  /** Rates within this of what was asked cost nothing, spm; 0.5 to 1; then this for each further spm, at most. */
  closeSpm: 0.7,
  eachSpm: 0.8,
  rateMost: 2.4,
  /** Rates further off than this share are other rowing: warming up at 18 is no piece at 30; 0.2 to 0.35. */
  otherRate: 0.28,
  /** Rest twice or half as long as asked; at most. */
  restDouble: 0.5,
  restMost: 1,
  /** Most steps in one work and most works in one step. */
  together: 4,
});

const askedLength = (step: AskedStep, work: Pick<Rowed, 'speedMps'>): number | null =>
  step.askedS ?? (step.askedM === null || !work.speedMps ? null : step.askedM / work.speedMps);

/** Seconds that a step asks for at some speed; null where a distance cannot be known in time. */
export const secondsOf = (step: AskedStep, speedMps: number | null): number | null =>
  askedLength(step, { speedMps });

const rateCost = (step: AskedStep, rateSpm: number | null): number | null => {
  if (rateSpm === null || step.rateFromSpm === null || step.rateToSpm === null) return 0;
  const { closeSpm, eachSpm, rateMost, otherRate } = MATCH_SETTINGS;
  const off = Math.max(0, step.rateFromSpm - rateSpm, rateSpm - step.rateToSpm);
  if (off > otherRate * step.rateToSpm) return null;
  return Math.min(rateMost, eachSpm * Math.max(0, off - closeSpm));
};

const lengthCost = (share: number): number | null => {
  const { short, long, closeShare, attemptShare } = MATCH_SETTINGS;
  if (share < attemptShare) return null;
  if (share < 1) return short * Math.max(0, 1 - closeShare - share);
  return long * Math.max(0, Math.log(share) - closeShare);
};

const restCost = (
  asked: readonly AskedStep[],
  before: number,
  after: number,
  gapS: number,
  mps: number | null,
) => {
  // What was left out between may have been sat out or not.
  const plainS = asked[before]!.restS;
  let satOutS = plainS;
  for (let i = before + 1; i < after; i++) satOutS += (secondsOf(asked[i]!, mps) ?? 0) + asked[i]!.restS;
  const { restDouble, restMost } = MATCH_SETTINGS;
  const cost = (restS: number) =>
    (restDouble * Math.abs(Math.log(Math.max(gapS, 5) / Math.max(restS, 5)))) / Math.LN2;
  return Math.min(restMost, cost(plainS), cost(satOutS));
};

interface Cell {
  readonly cost: number;
  readonly match: Match;
  readonly before: Cell | null;
}

/**
 * Which rowing was which step: the cheapest alignment in order, by dynamic programming (Needleman & Wunsch 1970)
 * over lengths, rates and rests. Rowing before and after the plan costs nothing unless it looks like the plan.
 * @param works in time order
 * @returns matches in order; steps and works in none of them were missed, or are other rowing
 */
export const matchSteps = (asked: readonly AskedStep[], works: readonly Rowed[]): readonly Match[] => {
  const set = MATCH_SETTINGS;
  const lowest = Math.min(...asked.map((step) => step.rateFromSpm ?? 0));
  const hard = (work: Rowed) => (work.rateSpm ?? 0) >= lowest - 2 && work.toS - work.fromS > 20;
  const between = (from: number, to: number): number =>
    works.slice(from, to).reduce((sum, work) => sum + (hard(work) ? set.extra : set.lightBetween), 0);

  /** Cost of rowing steps a…b in works c…d; null where that is none. */
  const matchCost = ({ firstStep, lastStep, firstWork, lastWork }: Match): number | null => {
    const work = works[firstWork]!;
    const rowedS = works[lastWork]!.toS - work.fromS;
    let [askedS, cost] = [0, 0];
    for (let i = firstStep; i <= lastStep; i++) {
      const step = asked[i]!;
      if (i < lastStep && step.restS > 0) return null;
      const length = askedLength(step, work);
      const rate = rateCost(step, work.rateSpm);
      if (length === null || rate === null) return null;
      askedS += length;
      cost += rate;
    }
    for (let j = firstWork + 1; j <= lastWork; j++) {
      const rate = rateCost(asked[firstStep]!, works[j]!.rateSpm);
      if (!works[j]!.follows || rate === null) return null;
      cost += 0.3 + rate;
    }
    if (lastStep > firstStep && rowedS < set.sharedShare * askedS) return null;
    const length = lengthCost(rowedS / askedS);
    return length === null ? null : cost + length;
  };

  const cells: Cell[] = [];
  let best: { cost: number; cell: Cell | null } = { cost: set.missed * asked.length, cell: null };
  for (let lastStep = 0; lastStep < asked.length; lastStep++)
    for (let lastWork = 0; lastWork < works.length; lastWork++) {
      const spans: Match[] = [];
      for (let k = 0; k < set.together; k++) {
        if (lastStep - k >= 0)
          spans.push({ firstStep: lastStep - k, lastStep, firstWork: lastWork, lastWork });
        if (k > 0 && lastWork - k >= 0)
          spans.push({ firstStep: lastStep, lastStep, firstWork: lastWork - k, lastWork });
      }
      for (const match of spans) {
        const own = matchCost(match);
        if (own === null) continue;
        const warming = works.slice(0, match.firstWork).filter(hard).length;
        let cell: Cell = {
          cost: own + set.missed * match.firstStep + set.hardBefore * warming,
          match,
          before: null,
        };
        for (const before of cells) {
          if (before.match.lastStep >= match.firstStep || before.match.lastWork >= match.firstWork) continue;
          const work = works[match.firstWork]!;
          const cost =
            before.cost +
            own +
            set.missed * (match.firstStep - before.match.lastStep - 1) +
            between(before.match.lastWork + 1, match.firstWork) +
            restCost(
              asked,
              before.match.lastStep,
              match.firstStep,
              work.fromS - works[before.match.lastWork]!.toS,
              work.speedMps,
            );
          if (cost < cell.cost) cell = { cost, match, before };
        }
        cells.push(cell);
        const whole = cell.cost + set.missed * (asked.length - 1 - lastStep);
        if (whole < best.cost) best = { cost: whole, cell };
      }
    }
  const matches: Match[] = [];
  for (let cell = best.cell; cell !== null; cell = cell.before) matches.unshift(cell.match);
  return matches;
};
