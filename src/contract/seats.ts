import * as z from 'zod';
import { envelope, errorModels } from './envelope.js';
import { field, unknown } from './field.js';
import { sheetRow } from './sheet.js';

const number = (description: string) => z.number().meta({ description });
const pieceName = z.string().meta({ description: 'the piece, as the plan names it' });
const boatName = z.string().meta({ description: 'the boat, as the plan names it' });
const people = (description: string) => z.array(z.string()).min(1).meta({ description });

/** Two boats side by side in one piece. */
export const marginRow = z.strictObject({
  piece: pieceName,
  start_time: unknown(field.start_time),
  boat: boatName,
  other_boat: boatName.meta({ description: 'the boat beside it' }),
  people: people('who sat in the boat'),
  other_people: people('who sat in the other boat'),
  compared_over_m: field.compared_over_m,
  compared_s: field.compared_s,
  other_compared_s: number('time of the other boat over the same length, s'),
  margin_s: number('how far the boat was ahead of the other one, s; below 0 behind'),
  margin_sd_s: number(
    'standard deviation of margin_s as a measure of who sat where, s: of the times, and of how crews vary',
  ),
  timing_sd_s: number('the part of margin_sd_s that comes from the times alone, s'),
  rate_spm: unknown(field.rate_spm),
  other_rate_spm: number('stroke rate of the other boat, strokes per minute').nullable(),
  heading_deg: unknown(field.heading_deg),
  wind_mps: number('wind, as the plan gives it, m/s').nullable(),
});

/** What it was worth to a boat to have some people and not others. */
export const swapRow = z.strictObject({
  swap: z.int().min(1).meta({ description: 'number of the swap, from 1' }),
  boat: boatName,
  other_boat: boatName.meta({ description: 'the boat that it swapped with' }),
  people: people('who sat in the boat first, and then in the other one'),
  against: people('who sat in the other boat first, and then in this one'),
  pieces: people('the pieces that count, in the order in which they were rowed'),
  swapped_back: z.boolean().meta({ description: 'true where the swap was undone and rowed again' }),
  over_m: number('length over which all margins of these pieces are given, m'),
  change_s: number('change of the margin by the swap, s: above 0 the boat gained on the other'),
  change_sd_s: number('standard deviation of change_s, s'),
  worth_s: number('time that a boat is faster with people than with against, over over_m, s'),
  worth_sd_s: number('standard deviation of worth_s, s'),
  drift_s: number(
    'how far the margin moved from one piece to the next beside the swap, s; null where no swap back shows it',
  ).nullable(),
  shown: z.boolean().meta({ description: 'false: inside the noise, not shown by these pieces' }),
});

/** `thole seats`. */
export const seatsResult = envelope('seats', {
  error_model: errorModels,
  sheet: z.array(sheetRow),
  variation_pct: number("how much one crew's time varies from piece to piece, standard deviation, %"),
  variation_by: z.enum(['given', 'assumed', 'assumed and repeats']).meta({
    description:
      'where variation_pct comes from: the user, the usual figure, or that and pieces that crews rowed again',
  }),
  repeat_count: z
    .int()
    .min(0)
    .meta({ description: 'pieces more than the margins of these crews needed: they show the variation' }),
  margins: z.array(marginRow),
  swaps: z.array(swapRow).meta({ description: 'each swap on its own; no order of merit follows from it' }),
});

export type MarginRow = z.infer<typeof marginRow>;
export type SwapRow = z.infer<typeof swapRow>;
export type SeatsResult = z.infer<typeof seatsResult>;
