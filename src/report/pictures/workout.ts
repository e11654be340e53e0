import type { DrawnWorkout } from '../../contract/drawn.js';
import type { WorkoutResult, WorkoutStepRow } from '../../contract/workout.js';
import { speedOfSplit } from '../../units/speed.js';
import { cell, clockCell, numberCell, speedUnit } from '../cells.js';
import { drawChart, type Panel } from '../drawing/chart.js';
import { boxMark, dotMarks, type Level, levelMarks, lineMark, type Sample } from '../drawing/marks.js';
import type { Picture, Pointer } from '../drawing/picture.js';
import { clockQuantity, LEAST, RATE, speedQuantity } from '../drawing/quantity.js';
import { usualDomain } from '../drawing/usual-domain.js';
import type { Reading } from '../section.js';

/** A band of one rate is drawn so wide to either side, spm: what counts as at the rate. */
const CLOSE_SPM = 1;

/** A step that was rowed and had a rate to be rowed at. */
type RatedStep = WorkoutStepRow & {
  readonly start_at_s: number;
  readonly end_at_s: number;
  readonly rate_from_spm: number;
  readonly rate_to_spm: number;
};

const isRated = (step: WorkoutStepRow): step is RatedStep =>
  step.start_at_s !== null &&
  step.end_at_s !== null &&
  step.rate_from_spm !== null &&
  step.rate_to_spm !== null;

const askedSplits = (steps: readonly WorkoutStepRow[]): Level[] =>
  steps.flatMap((step) =>
    step.asked_split_s_per_500m === null || step.start_at_s === null || step.end_at_s === null
      ? []
      : [
          {
            from: step.start_at_s,
            to: step.end_at_s,
            value: speedOfSplit(step.asked_split_s_per_500m),
            sd: null,
          },
        ],
  );

const pointerOf = (
  drawn: DrawnWorkout,
  unit: ReturnType<typeof speedUnit>,
  start: string | null,
  reading: Reading,
): Pointer => {
  const [clock, speed] = [clockQuantity(start, reading), speedQuantity(unit)];
  const { moments } = drawn;
  return {
    x: moments.map(({ at_s }) => Number(at_s.toFixed(1))),
    shown: {
      time: moments.map(({ at_s }) => clock.format(at_s)),
      rate: moments.map(({ rate_spm }) => cell(rate_spm, RATE.format)),
      asked: moments.map(({ at_rate }) =>
        at_rate === null ? '–' : at_rate ? 'at the rate' : 'off the rate',
      ),
      speed: moments.map(({ speed_mps }) => cell(speed_mps, speed.format)),
    },
  };
};

const pictureOf = (
  drawn: DrawnWorkout,
  result: WorkoutResult,
  several: boolean,
  reading: Reading,
): Picture | null => {
  const steps = result.steps.filter(({ file }) => file === drawn.file);
  const sheet = result.sheet.find(({ file }) => file === drawn.file);
  const unit = speedUnit(reading, sheet?.craft ?? null);
  const { moments } = drawn;
  const rates = moments.flatMap(({ rate_spm }) => rate_spm ?? []);
  if (rates.length < 2) return null;
  const asked = steps.filter(isRated);
  const bands = asked.flatMap((step) => [step.rate_from_spm - CLOSE_SPM, step.rate_to_spm + CLOSE_SPM]);
  const speeds = moments.flatMap(({ rate_spm, speed_mps }) =>
    rate_spm === null || speed_mps === null ? [] : [speed_mps],
  );
  const dots = (at: boolean | null): Sample[] =>
    moments.filter(({ at_rate }) => at_rate === at).map(({ at_s, rate_spm }) => [at_s, rate_spm]);
  const [first, last] = [moments[0]!.at_s, moments.at(-1)!.at_s];
  const panels: Panel[] = [
    {
      y: RATE,
      domain: usualDomain([...rates, ...bands], LEAST.rateSpm),
      height: 170,
      pointer: 0,
      marks: (scales) => [
        ...asked.map((step) =>
          boxMark(
            [step.start_at_s, step.rate_from_spm - CLOSE_SPM],
            [step.end_at_s, step.rate_to_spm + CLOSE_SPM],
            'asked',
            scales,
          ),
        ),
        dotMarks(dots(null), 4, scales, 'small'),
        dotMarks(dots(true), 0, scales, 'small'),
        dotMarks(dots(false), 1, scales),
      ],
    },
    ...(speeds.length < 2
      ? []
      : [
          {
            y: speedQuantity(unit),
            domain: usualDomain([...speeds, ...askedSplits(steps).map(({ value }) => value)], LEAST.speedMps),
            height: 110,
            pointer: 0,
            marks: (scales) => [
              levelMarks(askedSplits(steps), 1, scales),
              lineMark(
                moments.map(({ at_s, speed_mps }): Sample => [at_s, speed_mps]),
                0,
                scales,
                'plain',
              ),
            ],
          } satisfies Panel,
        ]),
  ];
  const missed =
    steps.length < result.steps.length && !several
      ? result.steps.filter(({ outcome }) => outcome === 'missed')
      : [];
  return {
    title: `What was asked and what was done${several ? `: ${sheet?.crew ?? drawn.file}` : ''}`,
    description: `Rate stroke by stroke over the rates that were asked for, speed below: ${steps.map((step) => `${step.step === null ? 'extra' : `step ${step.step}`} ${clockCell(step.duration_s, 1)} at ${numberCell(step.rate_spm, 1)} spm`).join('; ')}.`,
    draw: (width) =>
      drawChart(
        {
          x: clockQuantity(drawn.start_time, reading),
          domain: [first, last],
          shades: steps.flatMap(({ step, start_at_s, end_at_s }) =>
            start_at_s === null || end_at_s === null
              ? []
              : [{ from: start_at_s, to: end_at_s, label: step === null ? 'extra' : String(step) }],
          ),
          legend: [
            { label: 'asked, within 1 spm', look: 'box', series: 'asked' },
            { label: 'stroke at the rate', look: 'point', series: 0 },
            { label: 'off the rate', look: 'dot', series: 1 },
            ...(askedSplits(steps).length === 0
              ? []
              : [{ label: 'split that was asked for', look: 'level', series: 1 } as const]),
          ],
          panels,
        },
        width,
      ),
    pointers: [pointerOf(drawn, unit, drawn.start_time, reading)],
    numbers: null,
    notes:
      missed.length === 0
        ? []
        : [`Not drawn, for they were not done: steps ${missed.map(({ step }) => step).join(', ')}.`],
  };
};

/** The pictures of `thole workout`: one a log. */
export const workoutPictures = (result: WorkoutResult, reading: Reading): readonly Picture[] =>
  (result.drawn ?? []).flatMap(
    (drawn) => pictureOf(drawn, result, (result.drawn ?? []).length > 1, reading) ?? [],
  );
