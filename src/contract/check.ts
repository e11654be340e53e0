import * as z from 'zod';
import { envelope } from './envelope.js';
import { field } from './field.js';

/** One rule on one log. */
export const checkRow = z.strictObject({
  file: field.file,
  rule: z.string().meta({ description: 'name of the rule' }),
  passed: z.boolean(),
  value: z
    .union([z.number(), z.string(), z.boolean(), z.null()])
    .meta({ description: 'the figure; of several the first that breaks the rule; null where not known' }),
  limit: z.string().meta({ description: 'what the figure must be' }),
  severity: z.enum(['error', 'warning']),
  message: z.string().meta({ description: 'one sentence for a person' }),
});

/** `thole check`. */
export const checkResult = envelope('check', {
  results: z.array(checkRow),
  summary: z.strictObject({
    passed_count: z.int().min(0),
    failed_count: z.int().min(0).meta({ description: 'broken rules of severity error' }),
    warned_count: z.int().min(0).meta({ description: 'broken rules of severity warning' }),
  }),
});

export type CheckRow = z.infer<typeof checkRow>;
export type CheckResult = z.infer<typeof checkResult>;
