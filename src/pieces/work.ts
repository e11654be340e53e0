import type { Interval } from '../motion/track.js';
import { type Bout, boutsOf, bridged, type Outing } from '../outing/index.js';
import { median } from '../signal/index.js';
import type { Stroke } from '../strokes/stroke.js';
import { type Effort, effortsOf } from './effort.js';
import { rateSteps } from './rate-steps.js';

/** Rowing at one level, without a break: what pieces are made of. */
export interface Work extends Interval {
  readonly strokes: readonly Stroke[];
  /** Usual rate and speed over ground of its strokes. */
  readonly rateSpm: number | null;
  readonly speedMps: number | null;
  /** Began at rest. */
  readonly standing: boolean;
  /** No rest between the work before and this. */
  readonly follows: boolean;
}

/** What is at rest, and what is too short to be work. */
export const WORK_SETTINGS = Object.freeze({
  /** A boat below this share of the speed that follows is at rest; 0.15 to 0.3: drifting, straightening. */
  restShare: 0.25,
  /** Looked for at rest up to this long before the first stroke, s; 1 to 4: a smoothed track blurs a start. */
  restBeforeS: 3,
  /** A gap before a stroke this many usual periods long parts straightening strokes from a start; 1.5 to 2.5. */
  straighteningGap: 1.7,
  /** Straightening strokes are looked for among so many first strokes; 10 to 20. */
  straighteningStrokes: 15,
  /** Work shorter than this is handling the boat, s and strokes; 10 to 20 s, 5 to 10 strokes. */
  shortestS: 12,
  fewestStrokes: 6,
});

const usual = (values: readonly (number | null)[]): number | null => {
  const known = values.filter((value) => value !== null);
  return known.length === 0 ? null : median(known);
};

/** Was the boat at rest just before a moment, against the speed it then rowed at? */
const restedBefore = (outing: Pick<Outing, 'track'>, atS: number, workMps: number | null): boolean => {
  const { track } = outing;
  if (track === null || workMps === null) return false;
  const { restBeforeS, restShare } = WORK_SETTINGS;
  if (atS - restBeforeS <= track.fromS)
    return (track.speedAt(Math.max(atS, track.fromS)) ?? 0) < restShare * workMps;
  if (track.stationary.some(({ fromS, toS }) => fromS <= atS && toS >= atS - restBeforeS)) return true;
  const before = [0, 1, 2, 3].map((step) => track.speedAt(atS - (step * restBeforeS) / 3));
  return before.some((speed) => speed !== null && speed < restShare * workMps);
};

/** Without the straightening strokes at its head: from the last one that came at rest after a pause. */
const fromTheStart = (outing: Pick<Outing, 'track'>, bout: Bout): Bout => {
  const { strokes } = bout;
  const periodS = median(
    strokes
      .slice(1)
      .map(({ atS }, i) => atS - strokes[i]!.atS)
      .concat(bout.toS - strokes.at(-1)!.atS),
  );
  const workMps = usual(effortsOf(outing, bout).map(({ speedMps }) => speedMps));
  const last = Math.min(WORK_SETTINGS.straighteningStrokes, strokes.length - 1);
  for (let i = last; i > 0; i--) {
    const gapS = strokes[i]!.atS - strokes[i - 1]!.atS;
    if (gapS > WORK_SETTINGS.straighteningGap * periodS && restedBefore(outing, strokes[i]!.atS, workMps))
      return { ...bout, fromS: strokes[i]!.atS, strokes: strokes.slice(i) };
  }
  return bout;
};

/** Bouts joined over short breaks, but not where the boat came to rest in between. */
const unbroken = (outing: Outing, bouts: readonly Bout[]): readonly Bout[] => {
  const joined: Bout[] = [];
  for (const bout of bouts) {
    const last = joined.at(-1);
    const both = last === undefined ? [bout] : bridged(outing.track, [last, bout]);
    const speed = usual(effortsOf(outing, bout).map(({ speedMps }) => speedMps));
    if (last !== undefined && both.length === 1 && !restedBefore(outing, bout.fromS, speed))
      joined[joined.length - 1] = both[0]!;
    else joined.push(bout);
  }
  return joined;
};

const levelsOf = (outing: Outing, bout: Bout): Work[] => {
  const efforts = effortsOf(outing, bout);
  const standing = restedBefore(outing, bout.fromS, usual(efforts.map(({ speedMps }) => speedMps)));
  const borders = [...rateSteps(efforts, standing), efforts.length];
  return borders.slice(1).map((to, i): Work => {
    const part: readonly Effort[] = efforts.slice(borders[i]!, to);
    const within = { fromS: part[0]!.fromS, toS: part.at(-1)!.toS };
    return {
      ...within,
      strokes: bout.strokes.filter(({ atS }) => atS >= within.fromS && atS < within.toS),
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
 * @returns null where neither strokes nor positions tell when the crew rowed
 */
export const workOf = (outing: Outing): readonly Work[] | null => {
  const bouts = boutsOf(outing);
  if (bouts === null) return null;
  return unbroken(outing, bouts)
    .map((bout) => (bout.strokes.length > 1 ? fromTheStart(outing, bout) : bout))
    .flatMap((bout) => levelsOf(outing, bout))
    .filter(longEnough);
};
