import { type Interval, lengthBetween, type Track } from '../motion/index.js';
import { median } from '../signal/index.js';
import type { Stroke } from '../strokes/stroke.js';
import type { Outing } from './outing.js';
import { type RowedTrack, rowedTrack } from './water-track.js';

/** Unbroken rowing, from its first catch mark to the end of its last stroke. */
export interface RowingInterval extends Interval {
  /** The strokes, in time order; empty where the rowing interval was distinguished from movement alone. */
  readonly strokes: readonly Stroke[];
}

/** What is taken for rowing. */
export const ROWING_INTERVAL_SETTINGS = Object.freeze({
  /** Strokes whose usual period closes the last stroke of a rowing interval; 3 to 9: enough for a median, all of now. */
  periodStrokes: 5,
  /** Seconds given to a stroke that stands alone; 2 to 4: one stroke at 15 to 30 spm. */
  loneStrokeS: 3,
  /** A shorter break does not end unbroken work, s; 4 to 8: an easy at a turn. */
  bridgeS: 6,
  /** Nor does one up to this long in which the boat kept its way, s; 30 to 90: some strokes not found. */
  keptSpeedS: 60,
  /** … its way: this share of its speed before; 0.7 to 0.85: left to run, a hull loses a quarter in 4 s. */
  keptShare: 0.8,
  /** … speeds being means over so long, s; 3 to 6: some strokes. */
  meanS: 4,
  /** Without strokes: slower than this is drifting, m/s; 0.4 to 1: below a gentle paddle, above still water. */
  movingMps: 0.5,
  /** Without strokes: shorter movement is none, s; 5 to 20. */
  shortestMoveS: 10,
  /** Without strokes: shorter stops are none, s; 2 to 6. */
  shortestStopS: 4,
});

const closed = (strokes: readonly Stroke[]): RowingInterval => {
  const periods = strokes
    .slice(-ROWING_INTERVAL_SETTINGS.periodStrokes - 1, -1)
    .map((stroke, i, all) => (all[i + 1] ?? strokes.at(-1)!).atS - stroke.atS);
  const lastS = periods.length === 0 ? ROWING_INTERVAL_SETTINGS.loneStrokeS : median(periods);
  return { fromS: strokes[0]!.atS, toS: strokes.at(-1)!.atS + lastS, strokes };
};

/** A last stroke ends with the track where the log was stopped in the middle of it. */
const endedWithLog = (rowing: RowingInterval, track: Track | null): RowingInterval => {
  const lastMarkS = rowing.strokes.at(-1)!.atS;
  return track !== null && rowing.toS > track.toS && lastMarkS < track.toS
    ? { ...rowing, toS: track.toS }
    : rowing;
};

/** Unbroken runs of forward strokes: a stroke without a rate is the last before a stop. */
const strokeIntervalsOf = (strokes: readonly Stroke[]): RowingInterval[] => {
  const rowingIntervals: RowingInterval[] = [];
  let open: Stroke[] = [];
  for (const stroke of strokes) {
    if (stroke.kind === 'backing') continue;
    open.push(stroke);
    if (stroke.rateSpm !== null) continue;
    rowingIntervals.push(closed(open));
    open = [];
  }
  if (open.length > 0) rowingIntervals.push(closed(open));
  return rowingIntervals;
};

/**
 * Stretches of movement faster than a limit, short stops bridged, short moves left out. Moments far apart, as
 * some loggers write them, are no stop; a gap in the track is.
 */
export const movingIntervalsOf = (
  track: RowedTrack,
  movingMps: number = ROWING_INTERVAL_SETTINGS.movingMps,
): RowingInterval[] => {
  const { shortestMoveS, shortestStopS } = ROWING_INTERVAL_SETTINGS;
  const moves: { fromS: number; toS: number }[] = [];
  let moved = false;
  for (let i = 0; i < track.atS.length; i++) {
    const at = track.atS[i]!;
    const moving = track.speedMps[i]! >= movingMps && !inAny(track.stationary, at);
    const last = moves.at(-1);
    const holed = last !== undefined && track.outages.some((gap) => gap.fromS < at && gap.toS > last.toS);
    if (moving && last && !holed && (moved || at - last.toS <= shortestStopS)) last.toS = at;
    else if (moving) moves.push({ fromS: at, toS: at });
    moved = moving;
  }
  return moves
    .filter((move) => move.toS - move.fromS >= shortestMoveS)
    .map((move) => ({ ...move, strokes: [] }));
};

const inAny = (intervals: readonly Interval[], atS: number): boolean =>
  intervals.some(({ fromS, toS }) => atS >= fromS && atS < toS);

/**
 * When the crew rowed: from strokes where there are any, else from movement, else null (no strokes and no
 * position).
 */
export const rowingIntervalsOf = (
  outing: Pick<Outing, 'strokes' | 'track' | 'stream'>,
): readonly RowingInterval[] | null => {
  if (outing.strokes.source !== null)
    return strokeIntervalsOf(outing.strokes.strokes).map((rowing) => endedWithLog(rowing, outing.track));
  const track = rowedTrack(outing);
  return track === null ? null : movingIntervalsOf(track);
};

/** The boat's least speed over a break against its speed before it, over some seconds each: 0 where unknown. */
const speedKept = (track: RowedTrack | null, { fromS, toS }: Interval): number => {
  const { meanS } = ROWING_INTERVAL_SETTINGS;
  const over = (atS: number) => lengthBetween(track, atS, atS + meanS);
  const before = over(fromS - meanS);
  if (before === null || before <= 0) return 0;
  let least = before;
  for (let atS = fromS; atS + meanS <= toS; atS += 1) least = Math.min(least, over(atS) ?? 0);
  return least / before;
};

/** Is the break between two rowing intervals too short to be a rest? */
const isShort = (track: RowedTrack | null, gap: Interval): boolean => {
  const { bridgeS, keptSpeedS, keptShare } = ROWING_INTERVAL_SETTINGS;
  const lengthS = gap.toS - gap.fromS;
  return lengthS < bridgeS || (lengthS < keptSpeedS && speedKept(track, gap) >= keptShare);
};

/** Bouts with breaks between them too short to be rests joined into one. */
export const bridged = (
  track: RowedTrack | null,
  rowingIntervals: readonly RowingInterval[],
): readonly RowingInterval[] => {
  const joined: RowingInterval[] = [];
  for (const rowing of rowingIntervals) {
    const last = joined.at(-1);
    if (last && isShort(track, { fromS: last.toS, toS: rowing.fromS }))
      joined[joined.length - 1] = {
        fromS: last.fromS,
        toS: rowing.toS,
        strokes: [...last.strokes, ...rowing.strokes],
      };
    else joined.push(rowing);
  }
  return joined;
};
