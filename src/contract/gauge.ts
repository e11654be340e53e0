import * as z from 'zod';
import { mount } from './boat.js';
import { drawnGauge } from './drawn.js';
import { envelope } from './envelope.js';
import { field, unknown } from './field.js';

/** What a few minutes of light rowing and a rest tell of one boat and its logger. */
export const gauge = z.strictObject({
  craft: unknown(field.craft),
  source: z
    .enum(['imu', 'speed'])
    .nullable()
    .meta({ description: 'what was gauged: the accelerometer, or the logged speed; null: neither can be' }),
  rest_s: z.number().meta({ description: 'rest that the noise is from, s' }),
  stroke_count: z.int().min(0).meta({ description: 'steady strokes that their strength is from' }),
  noise_mps2: unknown(field.noise_mps2),
  stroke_strength_mps2: unknown(field.stroke_strength_mps2),
  ratio: z.number().nullable().meta({ description: 'stroke_strength_mps2 / noise_mps2' }),
  rate_from_spm: z.number().nullable().meta({ description: 'lowest usable rate, spm; null: none is' }),
  rate_to_spm: z.number().nullable().meta({ description: 'highest usable rate, spm; null: none is' }),
  mount: unknown(mount),
  verdict: z.array(
    z.strictObject({
      can: z.string().meta({ description: 'what was judged' }),
      yes: z.boolean().meta({ description: 'whether it is good enough' }),
      why: z.string().meta({ description: 'the reason, in plain words' }),
    }),
  ),
});

/** `thole gauge`. */
export const gaugeResult = envelope('gauge', {
  gauge,
  drawn: drawnGauge
    .optional()
    .meta({ description: 'what the pictures of a page are drawn from; no other format asks for it' }),
});

export type Gauge = z.infer<typeof gauge>;
export type GaugeResult = z.infer<typeof gaugeResult>;
