import * as z from 'zod';
import { drawnCurve } from './drawn.js';
import { envelope, errorModels } from './envelope.js';
import { field } from './field.js';

/** Steady rowing at about one rate. */
export const curvePoint = z.strictObject({
  rate_spm: field.rate_spm,
  speed_mps: field.speed_mps,
  speed_sd_mps: z
    .number()
    .nullable()
    .meta({ description: 'sd of speed_mps as a mean of its blocks, m/s; null where there is one block' }),
  distance_per_stroke_m: field.distance_per_stroke_m,
  stroke_count: field.stroke_count,
});

/** Rate against speed: speed = reference_speed_mps · (rate / reference_rate_spm)^exponent, beyond the plateau times (rate / plateau_spm)^exponent_beyond. */
export const curve = z.strictObject({
  exponent: z.number().meta({ description: 'speed ~ rate to this power; 1/3 is constant work a stroke' }),
  exponent_low: z.number().meta({ description: 'lower bound of the exponent, 95 %' }),
  exponent_high: z.number().meta({ description: 'upper bound of the exponent, 95 %' }),
  plateau_spm: z.number().nullable().meta({
    description: 'rate beyond which more rate buys no speed, spm; null where these data show none',
  }),
  exponent_beyond: z.number().nullable().optional().meta({
    description:
      'speed ~ rate to this power beyond plateau_spm: 0, or below 0 where speed falls; null without one',
  }),
  reference_rate_spm: z.number().meta({ description: 'rate at which the curve is pinned, spm' }),
  reference_speed_mps: z.number().meta({ description: 'speed there, m/s' }),
  rate_from_spm: z.number().meta({ description: 'lowest rate that the curve is made of, spm' }),
  rate_to_spm: z.number().meta({ description: 'highest rate that the curve is made of, spm' }),
  speed_over: field.speed_over,
  stroke_count: field.stroke_count,
  points: z.array(curvePoint),
});

/** `thole curve`; also what `--curve` of other commands reads. */
export const curveResult = envelope('curve', {
  error_model: errorModels,
  curve: curve
    .nullable()
    .meta({ description: 'null where the logs do not carry one; the reason is in warnings' }),
  drawn: drawnCurve
    .optional()
    .meta({ description: 'what the pictures of a page are drawn from; no other format asks for it' }),
});

export type Curve = z.infer<typeof curve>;
export type CurvePoint = z.infer<typeof curvePoint>;
export type CurveResult = z.infer<typeof curveResult>;
