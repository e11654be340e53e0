import { median } from 'simple-statistics';
import type { StartSource } from '../contract/regatta.js';
import type { CrewLog, Run } from './crew-log.js';
import { type CrewCase, finishPassage } from './timed-crew.js';

/** How the starts of an event are found. */
export interface StartPlan {
  /** `own`: each crew by its own log; `together`: one moment for the event. */
  readonly start: 'own' | 'together';
  /** Seconds between crews; null unless they start at intervals. */
  readonly intervalS: number | null;
}

/** A start that a crew did not make itself. */
export interface GivenStart {
  readonly unixS: number;
  readonly sdS: number;
  readonly by: StartSource;
}

export const START_SETTINGS = Object.freeze({
  /** Own starts this far from the common one are left out of it, s. */
  apartS: 5,
  /** sd of a median by that of a mean, for a normal error. */
  medianLoss: 1.2533,
  /** sd by the median of absolute deviations. */
  madScale: 1.4826,
});

/** The fastest finished run of those that a log saw start. */
export const fastestRun = (log: CrewLog): Run | null => {
  const seconds = (run: Run): number => finishPassage(run)!.atS - run.start!.atS;
  const complete = log.runs.filter((run) => run.finished && run.start !== null);
  return complete.length === 0
    ? null
    : complete.reduce((best, run) => (seconds(run) < seconds(best) ? run : best));
};

const ownStarts = (crews: readonly CrewCase[], shiftS: (index: number) => number): number[] =>
  crews.flatMap(({ log }, index) => {
    const run = log === null ? null : fastestRun(log);
    return log?.startUnixS == null || run === null ? [] : [log.startUnixS + run.start!.atS - shiftS(index)];
  });

/** One moment from several own starts. */
const commonMoment = (moments: readonly number[]): { unixS: number; sdS: number } | null => {
  if (moments.length === 0) return null;
  const middle = median([...moments]);
  const near = moments.filter((moment) => Math.abs(moment - middle) <= START_SETTINGS.apartS);
  const unixS = median(near.length > 0 ? near : [...moments]);
  const spread = START_SETTINGS.madScale * median(near.map((moment) => Math.abs(moment - unixS)));
  const sdS = (START_SETTINGS.medianLoss * Math.max(spread, 0.2)) / Math.sqrt(Math.max(1, near.length));
  return { unixS, sdS };
};

/** Crews of an event in the order in which they start: by number where all have one, else as listed. */
const startOrder = (crews: readonly CrewCase[]): readonly CrewCase[] => {
  const numbers = crews.map(({ entry }) => Number(entry.crewNumber ?? Number.NaN));
  if (numbers.some((value) => !Number.isFinite(value))) return crews;
  return crews
    .map((crew, index) => ({ crew, key: numbers[index]! }))
    .sort((a, b) => a.key - b.key)
    .map(({ crew }) => crew);
};

/**
 * The starts of an event that are not the crews' own: as given in the entries, at intervals from the first, or
 * one common moment by the tracks.
 * @returns null where the crew's own start counts
 */
export const givenStarts = (
  crews: readonly CrewCase[],
  plan: StartPlan,
): ReadonlyMap<CrewCase, GivenStart | null> => {
  const starts = new Map<CrewCase, GivenStart | null>();
  const { intervalS } = plan;
  if (intervalS !== null) {
    const order = startOrder(crews);
    const given = order.flatMap(({ entry }, index) =>
      entry.startUnixS === null ? [] : [entry.startUnixS - index * intervalS],
    );
    const first =
      given.length > 0
        ? { unixS: given[0]!, sdS: 0 }
        : commonMoment(ownStarts(order, (index) => index * intervalS));
    order.forEach((crew, index) => {
      starts.set(
        crew,
        first === null ? null : { unixS: first.unixS + index * intervalS, sdS: first.sdS, by: 'interval' },
      );
    });
    return starts;
  }
  const common = plan.start === 'together' ? commonMoment(ownStarts(crews, () => 0)) : null;
  for (const crew of crews) {
    const given = crew.entry.startUnixS;
    if (given !== null) starts.set(crew, { unixS: given, sdS: 0, by: 'given' });
    else starts.set(crew, common === null ? null : { ...common, by: 'together' });
  }
  return starts;
};
