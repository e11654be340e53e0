import { type WorkoutResult, type WorkoutStepRow, workoutStepRow } from '../contract/workout.js';
import { workoutSummary } from '../workout/index.js';
import {
  cell,
  clockCell,
  distanceCell,
  numberCell,
  speedCell,
  speedColumn,
  speedUnit,
  UNKNOWN,
} from './cells.js';
import { figures, type Reading, type Section, words } from './section.js';
import { speedOverNotes } from './speed-over.js';
import { flat, type View } from './view.js';

const askedLength = ({ asked_s, asked_m }: WorkoutStepRow): string =>
  asked_s === null ? distanceCell(asked_m) : clockCell(asked_s);

const askedRate = ({ rate_from_spm, rate_to_spm }: WorkoutStepRow): string =>
  rate_from_spm === rate_to_spm
    ? numberCell(rate_from_spm)
    : `${numberCell(rate_from_spm)}-${numberCell(rate_to_spm)}`;

const planSection = ({ plan, plan_text, steps }: WorkoutResult): Section => {
  const workS = steps.reduce((sum, step) => sum + (step.asked_s ?? 0), 0);
  const workM = steps.reduce((sum, step) => sum + (step.asked_m ?? 0), 0);
  // The rest after the last step is nobody's.
  const restS = steps.slice(0, -1).reduce((sum, step) => sum + (step.rest_s ?? 0), 0);
  const total = [
    ...(workS > 0 ? [`${clockCell(workS)} of work`] : []),
    ...(workM > 0 ? [`${distanceCell(workM)} of work`] : []),
    ...(restS > 0 ? [`${clockCell(restS)} of rest between`] : []),
  ];
  return {
    title: plan,
    columns: [figures('step'), figures('length'), figures('rate'), figures('split'), figures('rest after')],
    rows: steps.map((step) => [
      numberCell(step.step),
      askedLength(step),
      askedRate(step),
      clockCell(step.asked_split_s_per_500m, 1),
      step.rest_s ? clockCell(step.rest_s) : UNKNOWN,
    ]),
    notes: [
      ...(plan_text === plan ? [] : [plan_text]),
      `${steps.length} ${steps.length === 1 ? 'step' : 'steps'}: ${total.join(', ')}.`,
    ],
  };
};

/** What became of a step, in words. */
const OUTCOMES: Readonly<Record<NonNullable<WorkoutStepRow['outcome']>, string>> = {
  rowed: 'yes',
  off_rate: 'off rate',
  off_split: 'off split',
  short: 'short',
  missed: 'missed',
  extra: 'extra',
};

const rowedSection = (result: WorkoutResult, reading: Reading): Section => {
  const unit = speedUnit(reading, result.sheet[0]?.craft ?? null);
  return {
    title: `${result.plan}: ${result.sheet[0]?.crew ?? result.files[0] ?? ''}`,
    columns: [
      figures('#'),
      figures('asked'),
      words('done'),
      figures('time'),
      figures('m'),
      figures('rate'),
      figures('on rate'),
      figures('after'),
      speedColumn(unit),
      figures('m/stroke'),
    ],
    rows: result.steps.map((step) => [
      numberCell(step.step),
      step.step === null ? UNKNOWN : `${askedLength(step)} ${askedRate(step)}`,
      step.outcome === null ? 'not known' : OUTCOMES[step.outcome],
      clockCell(step.duration_s, 1),
      numberCell(step.distance_m),
      numberCell(step.rate_spm, 1),
      cell(step.within_rate_pct, (share) => `${numberCell(share)} %`),
      numberCell(step.time_to_rate_s),
      speedCell(step.speed_mps, unit),
      numberCell(step.distance_per_stroke_m, 2),
    ]),
    notes: [
      'On rate: strokes within 1 spm of the rate asked for. After: seconds until it was reached. As asked: the length, the rate within 1 spm, the split within 1 s.',
      ...(result.steps.some(({ asked_m }) => asked_m !== null)
        ? ['A step by distance is timed over its metres, not to where the crew stopped.']
        : []),
      ...speedOverNotes(result.steps),
      spoken(result),
    ],
  };
};

const named = (steps: readonly WorkoutStepRow[], outcome: WorkoutStepRow['outcome']): string =>
  steps
    .filter((step) => step.outcome === outcome)
    .map(({ step }) => String(step))
    .join(', ');

/** The workout in a sentence that a coach can read out. */
const spoken = ({ steps, summary }: WorkoutResult): string => {
  const others = [
    [summary.off_rate_count, 'off rate', 'off_rate'],
    [summary.off_split_count, 'off split', 'off_split'],
    [summary.short_count, 'cut short', 'short'],
    [summary.missed_count, 'missed', 'missed'],
    [summary.unknown_count, 'not known', null],
  ] as const;
  const parts = [
    `${summary.rowed_count} of ${summary.asked_count} as asked`,
    ...others.flatMap(([count, word, outcome]) =>
      count > 0 ? [`${count} ${word} (${named(steps, outcome)})`] : [],
    ),
    ...(summary.extra_count > 0 ? [`${summary.extra_count} extra`] : []),
  ];
  return `${parts.join(', ')}.`;
};

/** The steps of each log on their own. */
const byLog = (result: WorkoutResult): readonly WorkoutResult[] => {
  const logs: WorkoutStepRow[][] = [];
  for (const step of result.steps) {
    if (step.step === 1) logs.push([]);
    logs.at(-1)?.push(step);
  }
  if (logs.length < 2) return [result];
  return logs.map((steps): WorkoutResult => {
    const file = steps.find((step) => step.file !== null)?.file;
    return {
      ...result,
      files: file == null ? [] : [file],
      sheet: result.sheet.filter((row) => row.file === file),
      steps,
      summary: workoutSummary(steps),
    };
  });
};

/** `thole workout`: what was asked against what was rowed. */
export const workoutView: View<WorkoutResult> = {
  pictures: async () => (await import('./pictures/workout.js')).workoutPictures,
  keys: Object.keys(workoutStepRow.shape),
  rows: ({ steps }) => steps,
  cells: ({ steps }) => steps.map((step) => flat(step)),
  sections: (result, reading) =>
    result.files.length === 0
      ? [planSection(result)]
      : byLog(result).map((each) => rowedSection(each, reading)),
};
