import * as z from 'zod';
import { parseClock } from '../units/clock-time.js';
import { planInText } from './plan-in-text.js';
import { readPlanText } from './plan-text.js';

const time = z
  .string()
  .refine((text) => (parseClock(text) ?? 0) > 0, { message: 'write a time as 1:00, 90s or 20min' })
  .meta({ description: 'length of time, as 1:00, 90s or 20min' });
const metres = z.number().min(10).max(100_000).meta({ description: 'distance, m' });
const spm = z.number().min(5).max(200).meta({ description: 'rate, strokes per minute' });
const span = z.tuple([spm, spm]).meta({ description: 'lowest and highest rate, spm' });

const listOf = <Schema extends z.ZodType>(schema: Schema) =>
  z.union([schema, z.array(schema).min(1).max(100)]);

interface Draft {
  readonly time?: string | string[] | undefined;
  readonly distance?: number | number[] | undefined;
  readonly rate?: number | (number | [number, number])[] | undefined;
  readonly split?: string | undefined;
  readonly rest?: string | undefined;
  readonly repeat?: number | undefined;
  readonly and_back?: boolean | undefined;
  readonly steps?: string | Draft[] | undefined;
}

/** One step of a plan: work of some length, or a set of steps. */
export interface PlanStep extends Omit<Draft, 'steps'> {
  readonly steps?: readonly PlanStep[] | undefined;
}

const count = (value: unknown): number => (Array.isArray(value) ? value.length : 0);

/** What is wrong with a step that has the right keys: the key, and what is allowed. */
const wrongKey = (step: Draft): readonly [key: string, message: string] | null => {
  const { time: asked, distance, rate, steps } = step;
  if (steps !== undefined) {
    if (asked !== undefined || distance !== undefined || rate !== undefined || step.split !== undefined)
      return ['steps', 'a step holds either steps of its own or a time or distance, not both'];
    return null;
  }
  if (asked !== undefined && distance !== undefined)
    return ['distance', 'give either time or distance, not both'];
  if (asked === undefined && distance === undefined)
    return [Object.keys(step)[0] ?? 'steps', 'a step needs a time, a distance or steps of its own'];
  const length = Math.max(count(asked), count(distance));
  const isSpan = length === 0 && Array.isArray(rate) && rate.length === 2 && rate.every(Number.isFinite);
  if (isSpan && (rate[0] as number) > (rate[1] as number))
    return ['rate', 'a range of rates goes from low to high'];
  if (length > 0 && count(rate) > 0 && count(rate) !== length)
    return ['rate', `lists of one step are of one length: ${length} lengths, ${count(rate)} rates`];
  if (step.and_back === true && length === 0 && (count(rate) < 2 || isSpan))
    return ['and_back', 'only a list of lengths or rates, or a set of steps, can come back'];
  return null;
};

const text = z
  .string()
  .superRefine((written, context) => {
    const read = readPlanText(written);
    if ('fault' in read)
      context.addIssue({
        code: 'custom',
        message: `at "${written.slice(read.fault.at)}": ${read.fault.what}`,
      });
  })
  .meta({ description: 'steps as a text: 6 x 2:00 @ 28 / 1:00' });

const planStep: z.ZodType<Draft> = z.lazy(() =>
  z
    .strictObject({
      time: listOf(time).optional().meta({ description: 'time of work; a list is a ladder' }),
      distance: listOf(metres).optional().meta({ description: 'metres of work; a list is a ladder' }),
      rate: z
        .union([
          spm,
          z
            .array(z.union([spm, span]))
            .min(1)
            .max(100),
        ])
        .optional()
        .meta({
          description:
            'rate; two numbers are a range; with a list of times or distances, or of three and more, one for each',
        }),
      split: time.optional().meta({ description: 'split asked for, as 1:50.0' }),
      rest: time.optional().meta({ description: 'rest after each, as 1:00' }),
      repeat: z.int().min(1).max(100).optional().meta({ description: 'how often' }),
      and_back: z.boolean().optional().meta({ description: 'true: up the list and down again' }),
      steps: z
        .union([z.array(planStep).min(1).max(200), text])
        .optional()
        .meta({ description: 'a set of steps' }),
    })
    .superRefine((step, context) => {
      const wrong = wrongKey(step);
      if (wrong !== null) context.addIssue({ code: 'custom', path: [wrong[0]], message: wrong[1] });
    }),
);

/** A plan for `thole workout`: what the coach asks for. */
export const plan = z.strictObject({
  schema: z.literal('thole/plan/1').optional(),
  name: z.string().min(1).max(100).meta({ description: 'name of the workout' }),
  steps: z.union([z.array(planStep).min(1).max(200), text]).meta({ description: 'what is asked, in order' }),
});

/** A plan as every later step takes it: what was written as text is steps. */
export interface Plan {
  readonly name: string;
  readonly steps: readonly PlanStep[];
}

const stepsOf = (written: string | readonly Draft[]): readonly PlanStep[] => {
  if (typeof written === 'string') {
    const read = readPlanText(written);
    return 'steps' in read ? read.steps : [];
  }
  return written.map(({ steps, ...step }) =>
    steps === undefined ? step : { ...step, steps: stepsOf(steps) },
  );
};

/** The plan that a valid plan file holds. */
export const planOf = ({ name, steps }: z.infer<typeof plan>): Plan => ({ name, steps: stepsOf(steps) });

/** A plan that is a text and nothing else: its name is the text, as `--show` prints it. */
export const planOfSteps = (steps: readonly PlanStep[]): Plan => ({ name: planInText(steps), steps });
