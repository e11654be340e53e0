import * as z from 'zod';
import { field, unknown } from './field.js';

/** A place of the smoothed track, with its moment. */
const position = z.strictObject({
  at_s: field.at_s,
  time: unknown(field.time),
  lat_deg: field.lat_deg,
  lon_deg: field.lon_deg,
});

/** Where a boat was: the smoothed track in unbroken stretches. Asked for by maps alone. */
export const positions = z
  .array(z.array(position))
  .optional()
  .meta({ description: 'smoothed track, one list an unbroken stretch; maps alone ask for it' });

export type Positions = NonNullable<z.infer<typeof positions>>;
