import type { PaceResult, PaceRow } from '../contract/pace.js';
import { type Pace, paceOf } from '../units/pace.js';
import { speedOfSplit, splitOfSpeed } from '../units/speed.js';

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

const frame = () => ({ schema: 'thole/pace/1' as const, files: [], warnings: [] });

/**
 * All that follows from what is given.
 * @throws UserError where it contradicts itself
 */
export const paceResultOf = (given: Partial<Pace>): PaceResult => ({
  ...frame(),
  pace: rowOf(paceOf(given)),
  sheet: [],
});

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
