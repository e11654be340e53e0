import { type WorkoutResult, type WorkoutStepRow, workoutStepRow } from '../contract/workout.js';
import { clockCell, distanceCell, numberCell, speedCell, speedColumn, speedUnit, UNKNOWN } from './cells.js';
import { figures, type Reading, type Section, words } from './section.js';
import { flat, type View } from './view.js';

const askedLength = ({ asked_s, asked_m }: WorkoutStepRow): string =>
  asked_s === null ? distanceCell(asked_m) : clockCell(asked_s);

const askedRate = ({ rate_from_spm, rate_to_spm }: WorkoutStepRow): string =>
  rate_from_spm === rate_to_spm
    ? numberCell(rate_from_spm)
    : `${numberCell(rate_from_spm)}-${numberCell(rate_to_spm)}`;

const planSection = ({ plan, steps }: WorkoutResult): Section => {
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
    notes: [`${steps.length} ${steps.length === 1 ? 'step' : 'steps'}: ${total.join(', ')}.`],
  };
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
      figures('in %'),
      figures('after'),
      speedColumn(unit),
      figures('m/stroke'),
    ],
    rows: result.steps.map((step) => [
      numberCell(step.step),
      step.step === null ? UNKNOWN : `${askedLength(step)} ${askedRate(step)}`,
      step.outcome ?? UNKNOWN,
      clockCell(step.duration_s, 1),
      numberCell(step.distance_m),
      numberCell(step.rate_spm, 1),
      numberCell(step.within_rate_pct),
      numberCell(step.time_to_rate_s),
      speedCell(step.speed_mps, unit),
      numberCell(step.distance_per_stroke_m, 2),
    ]),
    notes: [
      'In %: strokes at the rate asked for. After: seconds until the rate was reached.',
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
  const parts = [
    `${summary.rowed_count} of ${summary.asked_count} rowed as asked`,
    ...(summary.short_count > 0 ? [`${summary.short_count} cut short (${named(steps, 'short')})`] : []),
    ...(summary.missed_count > 0 ? [`${summary.missed_count} missed (${named(steps, 'missed')})`] : []),
    ...(summary.extra_count > 0 ? [`${summary.extra_count} extra`] : []),
  ];
  return `${parts.join(', ')}.`;
};

/** The steps of each log on their own. */
const byLog = (result: WorkoutResult): readonly WorkoutResult[] => {
  const count = result.summary.asked_count;
  const logs: WorkoutStepRow[][] = [];
  for (const step of result.steps) {
    if (step.step === 1) logs.push([]);
    logs.at(-1)?.push(step);
  }
  if (logs.length < 2) return [result];
  return logs.map((steps): WorkoutResult => {
    const of = (outcome: WorkoutStepRow['outcome']) => steps.filter((s) => s.outcome === outcome).length;
    const file = steps.find((step) => step.file !== null)?.file;
    return {
      ...result,
      files: file == null ? [] : [file],
      sheet: result.sheet.filter((row) => row.file === file),
      steps,
      summary: {
        asked_count: count / logs.length,
        rowed_count: of('rowed'),
        short_count: of('short'),
        missed_count: of('missed'),
        extra_count: of('extra'),
      },
    };
  });
};

/** `thole workout`: what was asked against what was rowed. */
export const workoutView: View<WorkoutResult> = {
  keys: Object.keys(workoutStepRow.shape),
  rows: ({ steps }) => steps,
  cells: ({ steps }) => steps.map((step) => flat(step)),
  sections: (result, reading) =>
    result.files.length === 0
      ? [planSection(result)]
      : byLog(result).map((each) => rowedSection(each, reading)),
};
