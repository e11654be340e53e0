import * as z from 'zod';

const plain = z.union([z.number(), z.string(), z.boolean(), z.null()]);

/** One rule: a figure of a result, what it must be, and why. */
export const ruleEntry = z
  .strictObject({
    name: z.string().min(1).meta({ description: 'short name, shown when the rule is broken' }),
    figure: z.string().meta({
      description:
        'a command and the way to a value in its result, as outing.distance_m, pieces.0.duration_s, pieces.*.rate_spm, inspect.channels.position.rate_hz, season.weeks.2026-W12.distance_m or workout.summary.missed_count',
    }),
    min: z.number().optional().meta({ description: 'least value allowed' }),
    max: z.number().optional().meta({ description: 'greatest value allowed' }),
    equals: plain.optional().meta({ description: 'the only value allowed; null: not known or not there' }),
    one_of: z.array(plain).min(1).optional().meta({ description: 'the values allowed' }),
    within: z
      .strictObject({
        of: z.union([z.number(), z.string()]).meta({ description: 'a number, or another figure' }),
        pct: z.number().min(0).meta({ description: 'how far from it is allowed, %' }),
      })
      .optional(),
    files: z
      .string()
      .optional()
      .meta({ description: 'logs and stored results that it is for, as *.gpx; default: all' }),
    severity: z
      .enum(['error', 'warning'])
      .optional()
      .meta({ description: 'a broken warning does not change the exit status; default: error' }),
    reason: z.string().optional().meta({ description: 'why the rule is there, shown when it is broken' }),
  })
  .refine(
    (rule) =>
      (['min', 'max', 'equals', 'one_of', 'within'] as const).some((limit) => rule[limit] !== undefined),
    { error: 'a limit is missing: give min, max, equals, one_of or within', path: ['name'] },
  );

/** Rules of `thole check`. */
export const rulesFile = z.strictObject({
  schema: z.literal('thole/rules/1').optional(),
  rules: z.array(ruleEntry).min(1),
});

export type Rule = z.infer<typeof ruleEntry>;
