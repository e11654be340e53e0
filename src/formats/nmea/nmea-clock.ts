const DAY_S = 86_400;

/**
 * Full times of instants that state a time of day and, some of them, a date. One without a date has the day
 * that brings it nearest to its dated neighbour, so a midnight in between is passed; where the first date comes
 * late, the instants before are counted back from it.
 * @returns seconds from the start of the first day (no digits are lost so), and the Unix time of that start,
 *   null where no instant has a date
 */
export const nmeaTimes = (
  timeOfDayS: Float64Array,
  dayS: Float64Array,
): { readonly timesS: Float64Array; readonly originUnixS: number | null } => {
  const firstDated = dayS.findIndex(Number.isFinite);
  const originUnixS = firstDated < 0 ? null : dayS[firstDated]!;
  const timesS = timeOfDayS.map((time, i) => time + dayS[i]! - (originUnixS ?? 0));
  const from = Math.max(firstDated, 0);
  if (timesS.length > 0) timesS[from] = timeOfDayS[from]!;
  const nearest = (i: number, neighbour: number): void => {
    timesS[i] = timeOfDayS[i]! + DAY_S * Math.round((timesS[neighbour]! - timeOfDayS[i]!) / DAY_S);
  };
  for (let i = from - 1; i >= 0; i--) nearest(i, i + 1);
  for (let i = from + 1; i < timesS.length; i++) if (Number.isNaN(timesS[i]!)) nearest(i, i - 1);
  return { timesS, originUnixS };
};
