import type { PaceResult, PaceRow } from '../contract/pace.js';
import { type Pace, paceOf } from '../units/pace.js';
import { possibleSpeed, speedOfSplit, splitOfSpeed } from '../units/speed.js';
import { UserError } from '../units/user-error.js';

/** Evenly spaced values, both ends included where the step meets them. */
export interface Steps {
  readonly from: number;
  readonly to: number;
  readonly step: number;
}

const rowOf = (pace: Pace): PaceRow => ({
  speed_mps: pace.speedMps,
  split_s_per_500m: pace.speedMps === null ? null : splitOfSpeed(pace.speedMps),
  rate_spm: pace.rateSpm,
  distance_per_stroke_m: pace.distancePerStrokeM,
  distance_m: pace.distanceM,
  duration_s: pace.durationS,
  stroke_count: pace.strokeCount,
});

/** What no craft goes beyond: a kayak's sprint at the top, a light paddle at the bottom (common practice). */
const LIMITS = [
  { key: 'rateSpm', what: 'rate', unit: 'spm', low: 5, high: 200 },
  { key: 'distancePerStrokeM', what: 'distance per stroke', unit: 'm', low: 0.3, high: 40 },
] as const;

const frame = () => ({ schema: 'thole/pace/1' as const, files: [], warnings: [] });

/**
 * All that follows from what is given.
 * @throws UserError where it contradicts itself, or where no craft does what follows
 */
export const paceResultOf = (given: Partial<Pace>): PaceResult => {
  const pace = paceOf(given);
  if (pace.speedMps !== null) possibleSpeed(pace.speedMps, 'the speed that follows');
  for (const { key, what, unit, low, high } of LIMITS) {
    const value = pace[key];
    if (value !== null && (value < low || value > high))
      throw new UserError(
        `the ${what} that follows is ${Number(value.toPrecision(4))} ${unit}, and no craft goes beyond ${low} to ${high} ${unit}`,
      );
  }
  return { ...frame(), pace: rowOf(pace), sheet: [] };
};

const valuesOf = ({ from, to, step }: Steps): number[] => {
  const count = Math.floor(Math.abs(to - from) / step + 1e-9) + 1;
  return Array.from({ length: count }, (_, i) => from + Math.sign(to - from) * step * i);
};

/**
 * A target sheet: splits down, rates across, distance per stroke in the cells; with a wanted distance per stroke
 * one row a split, with the rate that makes it.
 * @param splits seconds per 500 m
 * @param rates spm; not used with a wanted distance per stroke
 */
export const paceSheet = (splits: Steps, rates: Steps, distancePerStrokeM: number | null): PaceResult => ({
  ...frame(),
  pace: null,
  sheet: valuesOf(splits).flatMap((split) => {
    const speedMps = speedOfSplit(split);
    return distancePerStrokeM === null
      ? valuesOf(rates).map((rateSpm) => rowOf(paceOf({ speedMps, rateSpm })))
      : [rowOf(paceOf({ speedMps, distancePerStrokeM }))];
  }),
});
