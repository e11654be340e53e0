import type { Rule } from '../contract/rules.js';

/**
 * Rules for a log that may be trusted: sampled often enough, without long gaps, with a clock, not cut off, at
 * speeds that boats reach, with a logger whose place is known.
 */
export const LOG_HEALTH_RULES: readonly Rule[] = Object.freeze([
  {
    name: 'positions often enough',
    figure: 'inspect.channels.position.rate_hz',
    min: 0.9,
    reason: 'with less than one position a second splits within a piece blur',
  },
  {
    name: 'no long gaps',
    figure: 'inspect.channels.position.longest_gap_s',
    one_of: [null],
    severity: 'warning',
    reason: 'what was done in a gap is not known',
  },
  {
    name: 'a clock',
    figure: 'inspect.clock',
    equals: 'utc',
    reason: 'without date and time the log cannot be put beside others',
  },
  {
    name: 'steady position',
    figure: 'inspect.noise.position_m',
    max: 2,
    severity: 'warning',
    reason: 'such noise makes short splits uncertain; look at where the receiver sits',
  },
  {
    name: 'placement known',
    figure: 'inspect.placement',
    one_of: ['hull', 'cox', 'wrist', 'pocket', 'body'],
    severity: 'warning',
    reason: 'say in the outing sheet where the logger sat',
  },
  {
    name: 'not cut off',
    figure: 'inspect.warnings.cut-off.code',
    equals: null,
    reason: 'the end of the outing is missing; copy the log again',
  },
  {
    name: 'speed of a boat',
    figure: 'outing.speed_mps',
    min: 0.5,
    max: 7,
    reason: 'no crew holds such a mean speed; a log that went on in a car does',
  },
  {
    name: 'strokes found',
    figure: 'outing.stroke_count',
    min: 10,
    severity: 'warning',
    reason: 'thole inspect says why there are none',
  },
] satisfies Rule[]);
