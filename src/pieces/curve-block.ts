import { type Outing, type RowingInterval, rowingIntervalsOf, stretchOf } from '../outing/index.js';

/** Some strokes in a row at one steady rate: what a curve is made of. */
export interface CurveBlock {
  readonly rateSpm: number;
  /** Through the water where the stream is known, else over ground, m/s. */
  readonly speedMps: number;
  readonly strokeCount: number;
}

/** A block as it was rowed. */
export interface SteadyBlock extends CurveBlock {
  /** sd of the speed by the track, m/s. */
  readonly speedSdMps: number;
  /** Direction of travel in its middle, degrees from true north. */
  readonly headingDeg: number;
}

/** What counts as steady rowing. */
export const BLOCK_SETTINGS = Object.freeze({
  /** Strokes in a block; 6 to 12: the noise of one stroke averages out, a ladder's rungs hold several. */
  strokes: 8,
  /** Left out after a start and after a change of rate, s; 15 to 30: an eight takes its speed in about 20 s. */
  settleS: 20,
  /** A change of rate is more than this between a block and the one before, share; 0.03 to 0.06. */
  change: 0.045,
  /** Strokes left out before a stop: the last ones are often light. */
  tail: 1,
  /** Turned further than this within a block is a turn, degrees; 15 to 40: boats lose speed in turns. */
  turnDeg: 25,
});

const turned = ({ track }: Outing, fromS: number, toS: number): boolean => {
  const [from, to] = [track?.headingAt(fromS) ?? null, track?.headingAt(toS) ?? null];
  if (from === null || to === null) return true;
  return Math.abs(((to - from + 540) % 360) - 180) > BLOCK_SETTINGS.turnDeg;
};

const blocksOfInterval = (outing: Outing, { strokes, fromS }: RowingInterval): SteadyBlock[] => {
  const { strokes: size, settleS, change, tail } = BLOCK_SETTINGS;
  const blocks: SteadyBlock[] = [];
  let readyS = fromS + settleS;
  let before: number | null = null;
  for (let i = 0; i + size < strokes.length - tail; i += size) {
    const [startS, endS] = [strokes[i]!.atS, strokes[i + size]!.atS];
    const rateSpm = (60 * size) / (endS - startS);
    if (before !== null && Math.abs(Math.log(rateSpm / before)) > change) readyS = startS + settleS;
    before = rateSpm;
    if (startS < readyS || turned(outing, startS, endS)) continue;
    const { speedMps, distance } = stretchOf(outing, { fromS: startS, toS: endS });
    const headingDeg = outing.track?.headingAt((startS + endS) / 2) ?? null;
    if (speedMps === null || !(speedMps > 0) || distance === null || headingDeg === null) continue;
    blocks.push({
      rateSpm,
      speedMps,
      speedSdMps: distance.sd / (endS - startS),
      headingDeg,
      strokeCount: size,
    });
  }
  return blocks;
};

/** The steady blocks of an outing, in time order; empty where there are no strokes or no track. */
export const curveBlocks = (outing: Outing): readonly SteadyBlock[] =>
  outing.strokes.source === null || outing.track === null
    ? []
    : (rowingIntervalsOf(outing) ?? []).flatMap((rowing) => blocksOfInterval(outing, rowing));
