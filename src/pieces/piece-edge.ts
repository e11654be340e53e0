import { type Interval, lengthBetween } from '../motion/index.js';
import { type Outing, rowedTrack } from '../outing/index.js';
import type { Craft } from '../units/craft.js';
import { alongFixes } from './along-fixes.js';
import { cadenceChange } from './cadence-change.js';
import type { Moment } from './first-movement.js';
import { type PaceChangeAsk, paceChange } from './pace-change.js';
import type { Work } from './work.js';

/** How the ends of work are looked for where strokes do not show them to a second. */
export const EDGE_SETTINGS = Object.freeze({
  /** A change is looked for so long to either side of where it was roughly found, s; 8 to 15. */
  reachS: 12,
  /** The pace before and after is looked at for so long, s: at rest beyond a stop, in work before a start less. */
  steadyS: 18,
  runOutS: 25,
  gettingUpS: 12,
  /** The usual speed at an end is that of so long beside it, s; 40 to 90. */
  usualS: 60,
  /** A boat that slows to this share of its usual speed has been left to run; 0.85 to 0.92. */
  leftShare: 0.88,
  /** … and one that has reached this share is under way; 0.4 to 0.6. */
  underWayShare: 0.5,
  /** sd of the usual speed as that of one end, m/s; of a boat at rest; of a level beside. */
  usualSdMps: 0.5,
  restSdMps: 0.3,
  /** Time constant of the glide of a hull from its usual speed, s: mass / (drag · speed), with its logarithm's sd. */
  glideSpread: 0.5,
  /** Share of it in which a hull takes the speed of new work (the slope of drag is twice drag / speed). */
  takeUpShare: 0.5,
  takeUpSpread: 0.6,
  /** Time constant of getting under way, s. */
  startS: 3.5,
  startSpread: 0.5,
  /** A stroke pushes early in its cycle, so the mean speed kinks so much of a cycle before the first catch; 0.2 to 0.35. */
  pushLeadShare: 0.3,
  /** A change of speed that stands clear of the track's error within some seconds, m/s; 0.3 to 0.6. */
  clearMps: 0.4,
  /** A smaller one is left to the cadence, whose lag is not known to so many strokes. */
  lagStrokes: 1.2,
  /** A cycle where no rate is known, s. */
  cycleS: 2.2,
  /** sd of the last and first strokes that a cadence counts, s. */
  cadenceSdS: 2.5,
  /** Least sd of an end, s: crews do not change in one moment. */
  leastSdS: 0.3,
  /** … and of a departure, s: it is one moment. */
  departureSdS: 0.15,
});

/** Glide of hulls by craft, s: mass / (drag · speed) of the usual crews; 8 s where the craft is not known. */
const GLIDE_S: Readonly<Partial<Record<Craft, number>>> = Object.freeze({
  '1x': 6.8,
  '2x': 8,
  '2-': 8,
  '2+': 9,
  '4x': 9.2,
  '4-': 9.2,
  '4x+': 9.6,
  '4+': 9.6,
  '8x+': 11,
  '8+': 11,
  K1: 6.3,
  K2: 7,
  K4: 7.4,
});

const glideS = (craft: Craft | null): number => (craft === null ? 8 : (GLIDE_S[craft] ?? 8));

const cycleOf = ({ rateSpm }: Pick<Work, 'rateSpm'>): number =>
  rateSpm === null ? EDGE_SETTINGS.cycleS : 60 / rateSpm;

const moved = (moment: Moment, byS: number, leastSdS: number = EDGE_SETTINGS.leastSdS): Moment => ({
  atS: moment.atS + byS,
  sdS: Math.hypot(moment.sdS, leastSdS),
});

/** A change of pace looked for in the fixes; null where they do not tell. */
const sought = (outing: Outing, look: Interval, ask: PaceChangeAsk): Moment | null => {
  if (!(ask.within.toS > ask.within.fromS)) return null;
  const fixes = alongFixes(outing, look);
  return fixes === null ? null : paceChange(fixes, outing.track!.errorModel, ask);
};

/** Mean speed over ground of work in a stretch, m/s; null where the track does not tell it. */
const groundMps = ({ track }: Outing, work: Work, { fromS, toS }: Interval): number | null => {
  const [from, to] = [Math.max(fromS, work.fromS), Math.min(toS, work.toS)];
  const metres = to > from ? lengthBetween(track, from, to) : null;
  return metres === null ? null : metres / (to - from);
};

/** Speed along the course of a boat at rest, m/s: what the stream drives it, as far as that is known. */
const adriftMps = ({ stream, track }: Outing, atS: number): number => {
  const heading = track?.headingAt(atS) ?? null;
  if (stream === null || heading === null) return 0;
  return stream.speedMps * Math.cos(((stream.toDeg - heading) * Math.PI) / 180);
};

/** Last moment up to `toS` at which the boat still had a speed; null where it never had. */
const lastAbove = (outing: Outing, { fromS, toS }: Interval, mps: number): number | null => {
  for (let at = toS; at > fromS; at -= 0.5) if ((rowedTrack(outing)?.speedAt(at) ?? 0) >= mps) return at;
  return null;
};

/** First moment from `fromS` on at which the boat had a speed; null where it never had. */
const firstAbove = (outing: Outing, { fromS, toS }: Interval, mps: number): number | null => {
  for (let at = fromS; at < toS; at += 0.5) if ((rowedTrack(outing)?.speedAt(at) ?? 0) >= mps) return at;
  return null;
};

/**
 * When the crew stopped at the end of work, by how the hull ran out: the end of the last stroke.
 * @param untilS next rowing, s: nothing beyond is looked at
 */
export const stopOf = (outing: Outing, work: Work, untilS: number): Moment | null => {
  const set = EDGE_SETTINGS;
  const { track, craft, strokes } = outing;
  if (track === null || work.speedMps === null) return null;
  const mps = groundMps(outing, work, { fromS: work.toS - set.usualS, toS: work.toS - set.reachS });
  const leftS = lastAbove(outing, { fromS: work.fromS, toS: work.toS + 5 }, set.leftShare * work.speedMps);
  if (leftS === null || mps === null) return null;
  const known = strokes.source === 'cadence' ? { atS: work.toS, sdS: set.cadenceSdS } : null;
  const cycleS = cycleOf(work);
  const lastS = Math.min(untilS, track.toS);
  const within = {
    fromS: Math.max(work.fromS + 2, Math.min(leftS, known?.atS ?? leftS) - set.reachS),
    toS: Math.min(lastS, Math.max(leftS, known?.atS ?? leftS) + 4),
  };
  const look = {
    fromS: Math.max(work.fromS, track.fromS, within.fromS - set.steadyS),
    toS: Math.min(lastS, within.toS + set.runOutS),
  };
  const tauS = glideS(craft);
  const found = sought(outing, look, {
    within,
    before: { mps, sdMps: set.usualSdMps },
    after: { mps: adriftMps(outing, work.toS - set.reachS), sdMps: set.restSdMps },
    tauS,
    tauSpread: set.glideSpread,
    shapes: ['glide', 'exponential'],
    rowedBefore: true,
    rowedAfter: false,
    known: known && { ...known, atS: known.atS - set.pushLeadShare * cycleS },
  });
  return found && moved(found, set.pushLeadShare * cycleS);
};

/** When a boat at rest got under way, by how its speed rose: its first movement. */
export const departureOf = (outing: Outing, work: Work): Moment | null => {
  const set = EDGE_SETTINGS;
  const { track, strokes } = outing;
  if (track === null || work.speedMps === null) return null;
  const underWayS = firstAbove(
    outing,
    { fromS: Math.max(track.fromS, work.fromS - 5), toS: work.toS },
    set.underWayShare * work.speedMps,
  );
  const mps = groundMps(outing, work, { fromS: work.fromS + set.reachS, toS: work.fromS + set.usualS });
  if (underWayS === null || mps === null) return null;
  const first = work.strokes[0];
  const known =
    strokes.source === 'cadence' && first !== undefined ? { atS: first.atS, sdS: set.cadenceSdS } : null;
  const within = { fromS: Math.max(track.fromS, underWayS - set.reachS), toS: underWayS };
  const found = sought(
    outing,
    {
      fromS: Math.max(track.fromS, within.fromS - set.steadyS),
      toS: Math.min(work.toS, underWayS + set.gettingUpS),
    },
    {
      within,
      before: { mps: adriftMps(outing, underWayS + set.reachS), sdMps: set.restSdMps },
      after: { mps, sdMps: set.usualSdMps },
      tauS: set.startS,
      tauSpread: set.startSpread,
      shapes: ['exponential'],
      rowedBefore: false,
      rowedAfter: true,
      known,
    },
  );
  return found && moved(found, set.pushLeadShare * set.cycleS, set.departureSdS);
};

/**
 * When the crew went from one level of work to another without a rest: the first catch of the new.
 * @param atS where the change was roughly found, s
 */
export const changeOf = (outing: Outing, before: Work, after: Work, atS: number): Moment | null => {
  const set = EDGE_SETTINGS;
  const { track, craft, strokes } = outing;
  if (track === null || before.speedMps === null || after.speedMps === null) return null;
  const [beforeMps, afterMps] = [
    groundMps(outing, before, { fromS: atS - set.usualS, toS: atS }),
    groundMps(outing, after, { fromS: atS, toS: atS + set.usualS }),
  ];
  if (beforeMps === null || afterMps === null) return null;
  const isClear = Math.abs(after.speedMps - before.speedMps) >= set.clearMps;
  if (!isClear && strokes.source === 'cadence') return { atS, sdS: set.lagStrokes * cycleOf(after) };
  const lead = set.pushLeadShare * cycleOf(after);
  const { cadence } = outing.recording.channels;
  const known =
    strokes.source !== 'cadence' || !cadence || before.rateSpm === null || after.rateSpm === null
      ? null
      : (cadenceChange(cadence, before.rateSpm, after.rateSpm, atS) ?? { atS, sdS: set.cadenceSdS });
  const within = {
    fromS: Math.max(before.fromS, track.fromS, atS - set.reachS),
    toS: Math.min(after.toS, track.toS, atS + set.reachS),
  };
  const found = sought(
    outing,
    {
      fromS: Math.max(before.fromS, track.fromS, within.fromS - set.steadyS),
      toS: Math.min(after.toS, track.toS, within.toS + set.steadyS),
    },
    {
      within,
      before: { mps: beforeMps, sdMps: set.usualSdMps },
      after: { mps: afterMps, sdMps: set.usualSdMps },
      tauS: set.takeUpShare * glideS(craft),
      tauSpread: set.takeUpSpread,
      shapes: ['exponential'],
      rowedBefore: true,
      rowedAfter: true,
      known: known && { ...known, atS: known.atS - lead },
    },
  );
  return found && moved(found, lead);
};
