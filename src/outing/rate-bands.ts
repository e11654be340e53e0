import type { RateBandRow } from '../contract/outing.js';
import { lengthBetween } from '../motion/index.js';
import type { Stroke } from '../strokes/stroke.js';
import { UserError } from '../units/user-error.js';
import type { Outing } from './outing.js';
import { meanKnown } from './stretch.js';

/** Bounds used unless the user gives his own, spm (common practice; clubs differ). */
export const USUAL_BOUNDS_SPM: readonly number[] = Object.freeze([20, 24, 28, 32]);

/** Strokes that have a rate, in one band. */
const bandRow = (
  outing: Outing,
  strokes: readonly Stroke[],
  from: number | null,
  to: number | null,
): RateBandRow => {
  const inBand = strokes.filter(
    ({ rateSpm }) => rateSpm! >= (from ?? 0) && rateSpm! < (to ?? Number.POSITIVE_INFINITY),
  );
  const lengths = inBand.map((stroke) =>
    lengthBetween(outing.track, stroke.atS, stroke.atS + 60 / stroke.rateSpm!),
  );
  return {
    from_spm: from,
    to_spm: to,
    stroke_count: inBand.length,
    rowing_s: inBand.reduce((sum, { rateSpm }) => sum + 60 / rateSpm!, 0),
    distance_m:
      outing.track === null ? null : lengths.reduce<number>((sum, length) => sum + (length ?? 0), 0),
    share_pct: strokes.length === 0 ? null : (100 * inBand.length) / strokes.length,
    speed_variation: meanKnown(inBand.map((stroke) => stroke.speedVariation)),
    extra_drag_power_pct: meanKnown(inBand.map((stroke) => stroke.extraDragPowerPct)),
  };
};

/**
 * How the strokes of an outing are spread over ranges of rate: below the first bound, between bounds, from the
 * last bound on. The last stroke before a stop has no rate and is in none of them.
 * @param boundsSpm rising, spm
 * @returns no rows where the log shows no strokes
 * @throws UserError where the bounds do not rise
 */
export const rateBands = (
  outing: Outing,
  boundsSpm: readonly number[] = USUAL_BOUNDS_SPM,
): readonly RateBandRow[] => {
  if (boundsSpm.some((bound, i) => !(bound > (boundsSpm[i - 1] ?? 0))))
    throw new UserError(
      `rate bands need rising bounds above 0, such as ${USUAL_BOUNDS_SPM.join(',')}; ${boundsSpm.join(',')} came`,
    );
  if (outing.strokes.source === null) return [];
  const rated = outing.strokes.strokes.filter(({ rateSpm, kind }) => rateSpm !== null && kind !== 'backing');
  const edges = [null, ...boundsSpm, null];
  return edges.slice(1).map((to, i) => bandRow(outing, rated, edges[i]!, to));
};
