import * as z from 'zod';

/** Names for the columns of a CSV log that do not name themselves: own name to known name. */
export const columnsFile = z
  .record(z.string(), z.string())
  .meta({ description: "a column's own heading, to a name such as time_s, lat_deg or ax_mps2" });
