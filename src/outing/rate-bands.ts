import type { RateBandRow } from '../contract/outing.js';
import { type Interval, lengthBetween } from '../motion/index.js';
import type { Stroke } from '../strokes/stroke.js';
import { type CraftFamily, craftFamily } from '../units/craft.js';
import { UserError } from '../units/user-error.js';
import type { Outing } from './outing.js';
import { rowingIntervalsOf } from './rowing-interval.js';
import { meanKnown } from './stretch.js';

/**
 * Bounds used unless the user gives his own, spm, by family (common practice; clubs differ). They lie between the rates
 * that coaches ask for (20, 24, 28, 32, 36 in rowing), so that a crew that holds one stays in one band.
 */
const USUAL_BOUNDS_SPM: Readonly<Record<CraftFamily, readonly number[]>> = Object.freeze({
  rowing: Object.freeze([18, 22, 26, 30, 34]),
  kayak: Object.freeze([65, 75, 85, 95, 110]),
  canoe: Object.freeze([35, 45, 55, 65]),
  dragon: Object.freeze([55, 65, 75, 85]),
});

/** The usual bounds for the craft of an outing; those of rowing where it is not known. */
export const usualBoundsSpm = ({ craft }: Pick<Outing, 'craft'>): readonly number[] =>
  USUAL_BOUNDS_SPM[craft === null ? 'rowing' : craftFamily(craft)];

/**
 * Lower and upper bound of each rate band, spm: null below the first and beyond the last.
 * @param boundsSpm rising, spm
 * @throws UserError where they do not rise
 */
export const bandEdges = (
  boundsSpm: readonly number[],
): readonly (readonly [number | null, number | null])[] => {
  if (boundsSpm.some((bound, i) => !(bound > (boundsSpm[i - 1] ?? 0))))
    throw new UserError(
      `rate bands need rising bounds above 0, such as ${USUAL_BOUNDS_SPM.rowing.join(',')}; ${boundsSpm.join(',')} came`,
    );
  const edges = [null, ...boundsSpm, null];
  return edges.slice(1).map((to, i) => [edges[i]!, to]);
};

/** Strokes that have a rate, in one band. */
const bandRow = (
  outing: Outing,
  strokes: readonly Stroke[],
  from: number | null,
  to: number | null,
  allCount: number,
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
    share_pct: allCount === 0 ? null : (100 * inBand.length) / allCount,
    speed_variation: meanKnown(inBand.map((stroke) => stroke.speedVariation)),
    extra_drag_power_pct: meanKnown(inBand.map((stroke) => stroke.extraDragPowerPct)),
  };
};

/** Strokes without a rate: each ends in a stop, and lasts as long as those before it. Both bounds are null. */
const unratedRow = (outing: Outing, count: number, allCount: number): RateBandRow => {
  const lasts = (rowingIntervalsOf(outing) ?? []).flatMap(({ strokes, toS }) => {
    const last = strokes.at(-1);
    return last === undefined || last.rateSpm !== null ? [] : [{ fromS: last.atS, toS }];
  });
  const metres = ({ fromS, toS }: Interval) => lengthBetween(outing.track, fromS, toS) ?? 0;
  return {
    from_spm: null,
    to_spm: null,
    stroke_count: count,
    rowing_s: lasts.reduce((sum, { fromS, toS }) => sum + toS - fromS, 0),
    distance_m: outing.track === null ? null : lasts.reduce((sum, last) => sum + metres(last), 0),
    share_pct: (100 * count) / allCount,
    speed_variation: null,
    extra_drag_power_pct: null,
  };
};

/**
 * How the strokes of an outing are spread over ranges of rate: below the first bound, between bounds, from the
 * last bound on. The last stroke before a stop has no rate and stands in a row of its own, without bounds,
 * so that the rows add up to all strokes, to the time rowed and to its length.
 * @param boundsSpm rising, spm
 * @returns no rows where the log shows no strokes
 * @throws UserError where the bounds do not rise
 */
export const rateBands = (
  outing: Outing,
  boundsSpm: readonly number[] = usualBoundsSpm(outing),
): readonly RateBandRow[] => {
  const edges = bandEdges(boundsSpm);
  if (outing.strokes.source === null) return [];
  const forward = outing.strokes.strokes.filter(({ kind }) => kind !== 'backing');
  const rated = forward.filter(({ rateSpm }) => rateSpm !== null);
  const bands = edges.map(([from, to]) => bandRow(outing, rated, from, to, forward.length));
  return rated.length === forward.length
    ? bands
    : [...bands, unratedRow(outing, forward.length - rated.length, forward.length)];
};
