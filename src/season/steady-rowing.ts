import { bandEdges, type Outing, usualBoundsSpm } from '../outing/index.js';
import { curveBlocks, type SteadyBlock } from '../pieces/index.js';

/** What of an outing counts as its steady rowing in a rate band. */
export const STEADY_SETTINGS = Object.freeze({
  /** Fewest blocks of eight strokes; 3 to 6: half a minute and more of settled rowing. */
  fewestBlocks: 4,
  /** Both ways count alike where each holds at least this share of the blocks; 0.15 to 0.35: wind and stream cancel. */
  wayShare: 0.2,
});

/** Steady rowing of an outing in one rate band. */
export interface SteadyRowing {
  readonly from_spm: number | null;
  readonly to_spm: number | null;
  readonly rate_spm: number;
  /** Through the water where the stream is known, else over ground, m/s. */
  readonly speed_mps: number;
  /** sd by the track and by how the blocks differ, m/s; what the day adds is not in it. */
  readonly speed_sd_mps: number;
  readonly stroke_count: number;
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

const variance = (values: readonly number[]): number => {
  const middle = mean(values);
  return values.reduce((sum, value) => sum + (value - middle) ** 2, 0) / Math.max(1, values.length - 1);
};

/** Blocks that went one way and those that went the other: along the direction most was rowed in. */
const ways = (blocks: readonly SteadyBlock[]): readonly (readonly SteadyBlock[])[] => {
  const radians = (deg: number) => (deg * Math.PI) / 180;
  // Doubled angles: a way and its opposite are one line.
  const x = blocks.reduce((sum, { headingDeg }) => sum + Math.cos(2 * radians(headingDeg)), 0);
  const y = blocks.reduce((sum, { headingDeg }) => sum + Math.sin(2 * radians(headingDeg)), 0);
  const line = Math.atan2(y, x) / 2;
  const isOut = ({ headingDeg }: SteadyBlock) => Math.cos(radians(headingDeg) - line) >= 0;
  return [blocks.filter(isOut), blocks.filter((block) => !isOut(block))];
};

const steadyOf = (blocks: readonly SteadyBlock[]): Omit<SteadyRowing, 'from_spm' | 'to_spm'> => {
  const both = ways(blocks);
  const balanced = both.every((way) => way.length >= STEADY_SETTINGS.wayShare * blocks.length);
  const parts = balanced ? both : [blocks];
  const speeds = parts.map((part) => part.map(({ speedMps }) => speedMps));
  const shares = parts.length ** 2;
  return {
    rate_spm: mean(parts.map((part) => mean(part.map(({ rateSpm }) => rateSpm)))),
    speed_mps: mean(speeds.map(mean)),
    speed_sd_mps: Math.sqrt(
      parts.reduce((sum, part, i) => {
        const logs = mean(part.map(({ speedSdMps }) => speedSdMps ** 2));
        return sum + Math.max(variance(speeds[i]!), logs) / part.length / shares;
      }, 0),
    ),
    stroke_count: blocks.reduce((sum, { strokeCount }) => sum + strokeCount, 0),
  };
};

/**
 * The rate in whole strokes a minute, as a coach asks for it: work at 18 belongs to the band from 18 on, though half of
 * its strokes come a little below. Else it would fall to either side by chance, and a band would mix rates.
 */
const askedRate = (rateSpm: number): number => Math.round(rateSpm);

/**
 * Steady rowing of an outing by rate band: settled strokes at an even rate, without starts and turns. Rowed both
 * ways, each way counts half, so that wind and stream cancel.
 * @param boundsSpm bounds of the bands, rising, spm; a rate counts in whole strokes a minute
 * @returns bands in which there is enough of it, lowest first
 */
export const steadyRowing = (
  outing: Outing,
  boundsSpm: readonly number[] = usualBoundsSpm(outing),
): readonly SteadyRowing[] => {
  const blocks = curveBlocks(outing);
  return bandEdges(boundsSpm).flatMap(([from, to]): SteadyRowing[] => {
    const within = blocks.filter(({ rateSpm }) => {
      const asked = askedRate(rateSpm);
      return asked >= (from ?? 0) && asked < (to ?? Number.POSITIVE_INFINITY);
    });
    return within.length < STEADY_SETTINGS.fewestBlocks
      ? []
      : [{ from_spm: from, to_spm: to, ...steadyOf(within) }];
  });
};
