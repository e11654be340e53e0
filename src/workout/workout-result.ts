import type { WarningRow } from '../contract/envelope.js';
import { merged } from '../contract/merged.js';
import type { Plan } from '../contract/plan.js';
import { planInText } from '../contract/plan-in-text.js';
import type { WorkoutResult, WorkoutStepRow } from '../contract/workout.js';
import { type Outing, resultFrame } from '../outing/index.js';
import { type SoughtStep, type Work, wholePiece, workOf } from '../pieces/index.js';
import { formatClock } from '../units/clock-time.js';
import { type AskedStep, askedSteps } from './asked-step.js';
import { drawnWorkout } from './drawn-workout.js';
import { type Match, matchSteps, type Rowed, secondsOf } from './match-steps.js';
import { askedRow, type RowedInterval, rowedRow } from './step-row.js';

const rowedOf = (outing: Outing, work: Work): Rowed => ({
  fromS: work.fromS,
  toS: work.toS,
  rateSpm: work.rateSpm,
  speedMps: work.speedMps,
  distanceM: outing.track?.distanceM(work.fromS, work.toS)?.value ?? null,
  follows: work.follows,
});

/** When a step by distance was over: where its metres were rowed; null where they were not, or nothing tells. */
const distanceEndS = (outing: Outing, { askedM }: AskedStep, fromS: number): number | null =>
  askedM === null ? null : (outing.track?.timeAfter(fromS, askedM)?.atS ?? null);

/**
 * Where each step of a match was rowed: steps that share one work end where their lengths do, and a step by
 * distance ends where its metres were rowed, not where the crew stopped.
 */
const intervalsOf = (
  outing: Outing,
  { firstStep, lastStep, firstWork, lastWork }: Match,
  asked: readonly AskedStep[],
  works: readonly Work[],
): readonly RowedInterval[] => {
  const first = works[firstWork]!;
  const endS = wholePiece(outing, works[lastWork]!, works).toS;
  let { fromS, strokesFromS } = wholePiece(outing, first, works);
  return asked.slice(firstStep, lastStep + 1).map((step, i, all) => {
    const lengthS = i === all.length - 1 ? Number.POSITIVE_INFINITY : (secondsOf(step, first.speedMps) ?? 0);
    const toS = Math.min(endS, distanceEndS(outing, step, fromS) ?? fromS + lengthS);
    const interval = { fromS, toS, strokesFromS };
    fromS = strokesFromS = toS;
    return interval;
  });
};

/** How a change of rate that the plan asks for without a rest is looked for. */
const SOUGHT = Object.freeze({
  /** A step counts from this share of the smallest one asked for, as a ratio of rates; 0.6 to 0.8. */
  share: 0.7,
  /** Each side lasts at least this share of the shortest step, 0.3 to 0.6, and so long, s; 15 to 30. */
  lengthShare: 0.4,
  shortestS: 20,
});

/** The steps of rate that the plan asks for without a rest between; null where there are none. */
const soughtIn = (asked: readonly AskedStep[]): SoughtStep | null => {
  const middle = ({ rateFromSpm, rateToSpm }: AskedStep) => (rateFromSpm! + rateToSpm!) / 2;
  const pairs = asked.slice(1).flatMap((step, i) => {
    const before = asked[i]!;
    return before.restS > 0 || before.rateFromSpm === null || step.rateFromSpm === null
      ? []
      : [{ ratio: Math.abs(Math.log(middle(step) / middle(before))), before, step }];
  });
  const stepping = pairs.filter(({ ratio }) => ratio > 0);
  if (stepping.length === 0) return null;
  const lengths = stepping.flatMap(({ before, step }) =>
    [before.askedS, step.askedS].filter((lengthS) => lengthS !== null),
  );
  return {
    rate: Math.exp(SOUGHT.share * Math.min(...stepping.map(({ ratio }) => ratio))),
    shortestS: Math.max(SOUGHT.shortestS, SOUGHT.lengthShare * Math.min(...lengths)),
  };
};

/** Work beyond the plan is distinguished from other rowing by being like one of its steps. */
const EXTRA = Object.freeze({
  /** Length within this share of the step's, 0.1 to 0.2, and rate within so many spm of it, 1 to 2. */
  lengthShare: 0.15,
  rateSpm: 1.2,
});

const isLike = (step: AskedStep, work: Work): boolean => {
  const lengthS = secondsOf(step, work.speedMps);
  if (lengthS === null || Math.abs(Math.log((work.toS - work.fromS) / lengthS)) > EXTRA.lengthShare)
    return false;
  if (work.rateSpm === null || step.rateFromSpm === null || step.rateToSpm === null) return true;
  return work.rateSpm >= step.rateFromSpm - EXTRA.rateSpm && work.rateSpm <= step.rateToSpm + EXTRA.rateSpm;
};

/** Work after the first step that no step asked for and that is like one: not paddling home. */
const extrasOf = (asked: readonly AskedStep[], works: readonly Work[], used: ReadonlySet<number>) =>
  works.filter(
    (work, i) => i > Math.min(...used) && !used.has(i) && asked.some((step) => isLike(step, work)),
  );

/** How many steps came to what. */
export const workoutSummary = (steps: readonly WorkoutStepRow[]): WorkoutResult['summary'] => {
  const count = (outcome: WorkoutStepRow['outcome']) =>
    steps.filter((step) => step.outcome === outcome).length;
  return {
    asked_count: steps.filter(({ step }) => step !== null).length,
    rowed_count: count('rowed'),
    off_rate_count: count('off_rate'),
    off_split_count: count('off_split'),
    short_count: count('short'),
    missed_count: count('missed'),
    unknown_count: count(null),
    extra_count: count('extra'),
  };
};

/** Most stretches of work that a warning lists. */
const LISTED = 6;

/** What was rowed instead, where no step of the plan was found. */
const nothingLikeIt = (outing: Outing, works: readonly Work[]): WarningRow => {
  const shown = works
    .slice(0, LISTED)
    .map(
      ({ fromS, toS, rateSpm }) =>
        `${formatClock(toS - fromS, 0)}${rateSpm === null ? '' : ` at ${rateSpm.toFixed(0)} spm`}`,
    );
  const more = works.length > LISTED ? ` and ${works.length - LISTED} more` : '';
  return {
    code: 'nothing-like-plan',
    file: outing.file,
    where: null,
    message:
      works.length === 0
        ? 'No step of the plan was found: the log shows no stretch of work.'
        : `No step of the plan was found; the log shows other work (${shown.join(', ')}${more}): is it the plan of this outing?`,
  };
};

/** The plan alone, expanded. */
export const planResultOf = (plan: Plan): WorkoutResult => {
  const steps = askedSteps(plan).map((step) => askedRow(step, null));
  return {
    schema: 'thole/workout/1',
    files: [],
    warnings: [],
    error_model: [],
    sheet: [],
    plan: plan.name,
    plan_text: planInText(plan.steps),
    steps,
    summary: { ...workoutSummary(steps), unknown_count: 0 },
  };
};

/**
 * What was asked beside what was rowed in one outing.
 * @param drawn whether to give what pictures are drawn from besides
 */
export const workoutResultOf = (outing: Outing, plan: Plan, drawn = false): WorkoutResult => {
  const asked = askedSteps(plan);
  const works = workOf(outing, soughtIn(asked));
  const unknown: WarningRow = {
    code: 'rowing-unknown',
    file: outing.file,
    where: null,
    message:
      'There are neither strokes nor positions in this log, so it is not known what of the plan was done.',
  };
  const matches =
    works === null
      ? []
      : matchSteps(
          asked,
          works.map((work) => rowedOf(outing, work)),
        );
  const rowed = new Map(
    matches.flatMap((match) =>
      intervalsOf(outing, match, asked, works!).map(
        (interval, i) => [match.firstStep + i, interval] as const,
      ),
    ),
  );
  const used = new Set(
    matches.flatMap(({ firstWork, lastWork }) =>
      Array.from({ length: lastWork - firstWork + 1 }, (_, i) => firstWork + i),
    ),
  );
  const extras = used.size === 0 ? [] : extrasOf(asked, works!, used);
  const steps: WorkoutStepRow[] = [];
  let next = 0;
  asked.forEach((step, i) => {
    const interval = rowed.get(i);
    while (interval !== undefined && next < extras.length && extras[next]!.fromS < interval.fromS)
      steps.push(rowedRow(outing, null, wholePiece(outing, extras[next++]!, works!)));
    steps.push(
      interval === undefined
        ? askedRow(step, works === null ? null : 'missed')
        : rowedRow(outing, step, interval),
    );
  });
  for (const extra of extras.slice(next))
    steps.push(rowedRow(outing, null, wholePiece(outing, extra, works!)));
  return {
    schema: 'thole/workout/1',
    ...resultFrame(
      outing,
      works === null ? [unknown] : used.size === 0 ? [nothingLikeIt(outing, works)] : [],
    ),
    plan: plan.name,
    plan_text: planInText(plan.steps),
    steps,
    summary: workoutSummary(steps),
    ...(drawn ? { drawn: [drawnWorkout(outing, steps)] } : {}),
  };
};

/** The workouts of several logs as one: all steps, and the sums. */
export const mergedWorkout = (first: WorkoutResult, rest: readonly WorkoutResult[]): WorkoutResult => {
  const whole = merged(first, rest);
  return { ...whole, summary: workoutSummary(whole.steps) };
};
