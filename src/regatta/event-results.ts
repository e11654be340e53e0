import type { RegattaRow } from '../contract/regatta.js';
import type { Course } from '../geodesy/index.js';
import type { Target } from '../outing/index.js';
import type { Warning } from '../recording/index.js';
import { firstAtLeast } from '../units/first-at-least.js';
import { rank, type Standing } from './ranking.js';
import { rowOf } from './result-rows.js';
import { eventWarnings } from './result-warnings.js';
import { givenStarts, type StartPlan } from './starts.js';
import { timeCrew } from './time-crew.js';
import { type CrewCase, elapsedAt, finishPassage, type TimedCrew } from './timed-crew.js';

/** One event, timed and ranked. */
export interface EventResults {
  readonly crews: readonly TimedCrew[];
  /** In the order of the results: places first, then crews without one, as listed. */
  readonly rows: readonly RegattaRow[];
  readonly warnings: readonly Warning[];
}

interface Ranked {
  readonly crew: TimedCrew;
  readonly row: RegattaRow;
}

const counts = ({ row }: Ranked): boolean => row.outcome === 'finished' && row.result_s !== null;

const ownSdS = ({ crew }: Ranked): number => elapsedAt(crew.start, finishPassage(crew.run))?.ownSdS ?? 0;

const lengthsOf = ({ crew }: Ranked, marginS: number | null): number | null => {
  const speed = crew.run?.finishMps ?? null;
  if (marginS === null || speed === null || crew.log === null) return null;
  return (marginS * speed) / crew.log.hullLengthM;
};

const placed = (ranked: Ranked, standing: Standing): RegattaRow => ({
  ...ranked.row,
  place: standing.place,
  margin_winner_s: standing.behindWinnerS,
  margin_ahead_s: standing.behindAheadS,
  margin_ahead_lengths: lengthsOf(ranked, standing.behindAheadS),
  separable: standing.separable,
});

/** Places at each line by the time there. */
const withMarkPlaces = (rows: readonly RegattaRow[]): RegattaRow[] => {
  const lineCount = Math.max(0, ...new Set(rows.map(({ marks }) => marks.length)));
  // In order, so that a place is looked up and the crews are not counted anew for each of them.
  const timesAt = Array.from({ length: lineCount }, (_, i) =>
    Float64Array.from(
      rows.flatMap(({ outcome, marks }) => (outcome === 'excluded' ? [] : (marks[i]?.duration_s ?? []))),
    ).sort(),
  );
  const placeAt = (index: number, durationS: number): number => 1 + firstAtLeast(timesAt[index]!, durationS);
  return rows.map((row) => ({
    ...row,
    marks: row.marks.map((mark, i) => ({
      ...mark,
      place: mark.duration_s === null || row.outcome === 'excluded' ? null : placeAt(i, mark.duration_s),
    })),
  }));
};

/**
 * Time and rank the crews of one event.
 * @throws UserError where the entries give a start that is after the finish
 */
export const eventResults = (
  cases: readonly CrewCase[],
  course: Course,
  plan: StartPlan,
  targets: readonly Target[],
): EventResults => {
  const starts = givenStarts(cases, plan);
  const ranked = cases.map((crewCase): Ranked => {
    const crew = timeCrew(crewCase, starts.get(crewCase) ?? null, course.lengthM);
    return { crew, row: rowOf(crew, course, targets) };
  });
  const finishers = ranked.filter(counts);
  const standings = rank(
    finishers.map((finisher) => ({ resultS: finisher.row.result_s!, sdS: ownSdS(finisher) })),
  );
  const first = finishers
    .map((finisher, i) => ({ crew: finisher.crew, row: placed(finisher, standings[i]!) }))
    .sort((a, b) => a.row.place! - b.row.place!);
  const ordered = [...first, ...ranked.filter((entry) => !counts(entry))];
  const rows = withMarkPlaces(ordered.map(({ row }) => row));
  const crews = ordered.map(({ crew }) => crew);
  return { crews, rows, warnings: eventWarnings(crews, rows, starts) };
};
