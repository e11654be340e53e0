import * as z from 'zod';
import { field, unknown } from './field.js';
import { SEVERITIES, type Severity, type WarningCode } from './severity.js';

/** A message about a log or a result, as the code hands it on: its severity is added where it is written. */
export interface WarningRow {
  readonly severity?: Severity;
  readonly code: WarningCode;
  readonly file: string | null;
  readonly where: string | null;
  readonly message: string;
}

/** What a reader of the result has to know: what was doubtful, mended or left out, and where. */
export const warning = z.strictObject({
  severity: z.enum(SEVERITIES).default('warning').meta({
    description:
      'error: a log could not be read; warning: a figure is missing or doubtful; note: an assumption that is usually right',
  }),
  code: z.string().meta({ description: 'short stable name of the kind of warning' }),
  file: unknown(field.file),
  where: z.string().nullable().meta({ description: 'place in the file' }),
  message: z.string().meta({ description: 'one sentence for a person' }),
}) as unknown as z.ZodType<WarningRow>;

/** The position errors that a log's distances and times were computed with. */
export const errorModel = z.strictObject({
  file: field.file,
  position_sd_m: z
    .number()
    .meta({ description: 'sd of the slowly wandering part of the position error, each axis, m' }),
  correlation_s: z.number().meta({ description: 'correlation time of that part, s' }),
  white_sd_m: z
    .number()
    .meta({ description: 'sd of the independent part of the position error, each axis, m' }),
  speed_sd_mps: z.number().nullable().meta({
    description: 'sd of the independent error of the logged speed, m/s; null where none is logged or used',
  }),
  speed_wander_sd_mps: z.number().nullable().meta({
    description:
      'sd of the slowly wandering error of the logged speed, which comes on top, m/s; null as before',
  }),
  speed_wander_s: z.number().nullable().meta({ description: 'correlation time of that error, s' }),
  source: z.enum(['boat file', 'log', 'default']).meta({
    description: 'where the wandering part comes from: the boat file, the log itself, or the default',
  }),
});

export type ErrorModelRow = z.infer<typeof errorModel>;

/** The frame around every result. */
export const envelope = <Name extends string, Shape extends z.ZodRawShape>(name: Name, shape: Shape) =>
  z.strictObject({
    schema: z.literal(`thole/${name}/1`),
    files: z.array(field.file).meta({ description: 'the logs that this result is made of' }),
    warnings: z.array(warning),
    ...shape,
  });

/** Error models, one a log, in results that rest on positions. */
export const errorModels = z.array(errorModel).meta({ description: 'position error assumed for each log' });
