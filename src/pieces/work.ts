import { type Interval, lengthBetween } from '../motion/index.js';
import {
  bridged,
  type Outing,
  type RowedTrack,
  type RowingInterval,
  rowedTrack,
  rowingIntervalsOf,
} from '../outing/index.js';
import { median } from '../signal/index.js';
import type { Stroke } from '../strokes/stroke.js';
import { type Effort, effortsOf } from './effort.js';
import { rateSteps, type SoughtStep } from './rate-steps.js';
import { restsOf } from './rest.js';

/** Rowing at one level, without a break: what pieces are made of. */
export interface Work extends Interval {
  readonly strokes: readonly Stroke[];
  /** Usual rate of its strokes, and speed, through the water where the stream is known. */
  readonly rateSpm: number | null;
  readonly speedMps: number | null;
  /** Began at rest. */
  readonly standing: boolean;
  /** No rest between the work before and this. */
  readonly follows: boolean;
  /** Cut at a moment that was given, at its beginning and at its end. */
  readonly givenFrom?: true;
  readonly givenTo?: true;
}

/** What is at rest, and what is too short to be work. */
export const WORK_SETTINGS = Object.freeze({
  /** A boat below this share of its usual speed in the work is at rest; 0.15 to 0.25: drifting, straightening. */
  restShare: 0.2,
  /** … for at least so long, s; 2 to 6: within a stroke no hull slows down as much. */
  restS: 3,
  /** The first stroke's catch mark stands at most so long before the boat has left rest, s; 1 to 2. */
  firstStrokeS: 1.5,
  /** Where the first strokes were not found the boat shows the work: looked back so far, s; 30 to 90. */
  missedS: 60,
  /** … once under way for so long, at this share of its usual speed or more; 6 to 10 s, 0.4 to 0.6. */
  underWayS: 8,
  underWayShare: 0.5,
  /** Strokes found while the boat runs out are none: below this share of its usual speed and slowing; 0.7 to 0.85. */
  runOutShare: 0.8,
  /** Where the last strokes were not found the boat keeps this share of its usual speed, over so long; 0.88 to 0.95, 2 to 4 s. */
  keptShare: 0.9,
  keptS: 3,
  /** Work shorter than this is handling the boat, s and strokes; 10 to 20 s, 5 to 10 strokes. */
  shortestS: 12,
  fewestStrokes: 6,
});

const usual = (values: readonly (number | null)[]): number | null => {
  const known = values.filter((value) => value !== null);
  return known.length === 0 ? null : median(known);
};

const usualSpeed = (outing: Outing, rowing: RowingInterval): number | null =>
  usual(effortsOf(outing, rowing).map(({ speedMps }) => speedMps));

/** A rowing interval, and whether it began at rest. */
interface Unbroken {
  readonly rowing: RowingInterval;
  readonly standing: boolean;
}

const cutOut = (rowing: RowingInterval, fromS: number, toS: number, firstFromS: number): RowingInterval => ({
  fromS,
  toS,
  strokes: rowing.strokes.filter(({ atS }) => atS >= firstFromS && atS < toS),
});

/** Where the first strokes after a rest were not found, the boat was under way from that rest on. */
const backToRest = (
  track: RowedTrack,
  rowing: RowingInterval,
  restEndS: number,
  workMps: number,
): boolean => {
  const { missedS, underWayS, underWayShare } = WORK_SETTINGS;
  if (rowing.fromS - restEndS > missedS) return false;
  for (let atS = restEndS + underWayS; atS < rowing.fromS; atS += 1)
    if ((track.speedAt(atS) ?? 0) < underWayShare * workMps) return false;
  return true;
};

/**
 * A rowing interval without the rests in it: strokes found in a boat at rest are none, or straighten it. What follows a
 * rest begins there, at the moment at which the boat leaves it.
 * @param afterS end of the rowing interval before: no rest is looked for beyond it
 */
const withoutRests = (outing: Outing, rowing: RowingInterval, afterS: number): readonly Unbroken[] => {
  const track = rowedTrack(outing);
  const workMps = usualSpeed(outing, rowing);
  if (track === null || workMps === null) return [{ rowing, standing: false }];
  const { missedS, firstStrokeS, restShare, restS } = WORK_SETTINGS;
  const lookFromS = Math.max(afterS, rowing.fromS - missedS - restS, track.fromS);
  const rests = restsOf(track, { fromS: lookFromS, toS: rowing.toS }, restShare * workMps, restS);
  const before = rests.filter(({ toS }) => toS <= rowing.fromS).at(-1);
  const within = rests.filter(({ toS }) => toS > rowing.fromS);
  const found: Unbroken[] = [];
  let [fromS, standing] = [rowing.fromS, false];
  if (before !== undefined && backToRest(track, rowing, before.toS, workMps))
    [fromS, standing] = [before.toS, true];
  const add = (toS: number) => {
    if (toS > fromS)
      found.push({ rowing: cutOut(rowing, fromS, toS, fromS - (standing ? firstStrokeS : 0)), standing });
  };
  for (const rest of within) {
    add(rest.fromS);
    [fromS, standing] = [rest.toS, true];
  }
  add(rowing.toS);
  return found;
};

/** Without what was taken for strokes at the end, while the boat ran out. */
const withoutRunOut = (outing: Outing, part: Unbroken): Unbroken => {
  const efforts = effortsOf(outing, part.rowing);
  const workMps = usual(efforts.map(({ speedMps }) => speedMps));
  const slow = (i: number): boolean =>
    i > 0 &&
    workMps !== null &&
    (efforts[i]!.speedMps ?? workMps) < WORK_SETTINGS.runOutShare * workMps &&
    (efforts[i]!.speedMps ?? 0) < (efforts[i - 1]!.speedMps ?? 0);
  let last = efforts.length - 1;
  while (slow(last)) last -= 1;
  if (last === efforts.length - 1) return part;
  const { toS } = efforts[last]!;
  return { ...part, rowing: cutOut(part.rowing, part.rowing.fromS, toS, Number.NEGATIVE_INFINITY) };
};

/** With what was rowed after the last stroke found: a hull left to run loses a tenth of its speed in 2 s. */
const upToRunOut = (outing: Outing, part: Unbroken): Unbroken => {
  const { keptShare, keptS, missedS } = WORK_SETTINGS;
  const workMps = usualSpeed(outing, part.rowing);
  if (workMps === null || part.rowing.strokes.length === 0) return part;
  const track = rowedTrack(outing);
  let { toS } = part.rowing;
  const lastS = toS + missedS;
  while (toS < lastS && (lengthBetween(track, toS, toS + keptS) ?? 0) >= keptShare * workMps * keptS)
    toS += 0.5;
  return { ...part, rowing: { ...part.rowing, toS } };
};

/** Unbroken rowing: short breaks bridged, rests taken out. */
const unbroken = (outing: Outing, rowingIntervals: readonly RowingInterval[]): readonly Unbroken[] => {
  const joined = bridged(rowedTrack(outing), rowingIntervals);
  return joined.flatMap((rowing, i) =>
    withoutRests(outing, rowing, joined[i - 1]?.toS ?? Number.NEGATIVE_INFINITY),
  );
};

const levelsOf = (outing: Outing, { rowing, standing }: Unbroken, sought: SoughtStep | null): Work[] => {
  const efforts = effortsOf(outing, rowing);
  const borders = [...rateSteps(efforts, standing, sought), efforts.length];
  return borders.slice(1).map((to, i): Work => {
    const part: readonly Effort[] = efforts.slice(borders[i]!, to);
    const fromS = i === 0 ? rowing.fromS : part[0]!.fromS;
    const toS = part.at(-1)!.toS;
    return {
      fromS,
      toS,
      strokes: rowing.strokes.filter(({ atS }) => (i === 0 || atS >= fromS) && atS < toS),
      rateSpm: usual(part.map(({ rateSpm }) => rateSpm)),
      speedMps: usual(part.map(({ speedMps }) => speedMps)),
      standing: standing && i === 0,
      follows: i > 0,
    };
  });
};

const longEnough = ({ fromS, toS, strokes }: Work): boolean =>
  toS - fromS >= WORK_SETTINGS.shortestS &&
  (strokes.length === 0 || strokes.length >= WORK_SETTINGS.fewestStrokes);

/**
 * All work of an outing, hard and light, in time order: unbroken rowing, cut where rate and speed step
 * together, without straightening strokes and the handling of the boat.
 * @param sought a step of rate that was asked for without a rest
 * @returns null where neither strokes nor positions tell when the crew rowed
 */
export const workOf = (outing: Outing, sought: SoughtStep | null = null): readonly Work[] | null => {
  const rowingIntervals = rowingIntervalsOf(outing);
  if (rowingIntervals === null) return null;
  return unbroken(outing, rowingIntervals)
    .filter(({ rowing }) => rowing.strokes.length > 0 || outing.strokes.source === null)
    .map((part) => upToRunOut(outing, withoutRunOut(outing, part)))
    .flatMap((part) => levelsOf(outing, part, sought))
    .filter(longEnough);
};
