import type { Recording } from '../recording/index.js';
import { median } from '../signal/index.js';
import { ALIGN_SETTINGS } from './align-settings.js';
import {
  type Candidate,
  type Pair,
  pairOf,
  slowMatch,
  strokeFit,
  strokeMatch,
  thinned,
  windowOffset,
} from './clock-search.js';
import type { ClockFit } from './join-logs.js';
import { type Edge, edgesOf, fineSpeedGrid, speedGrid } from './movement-signal.js';
import { clockOf, type Line, lineThrough, onLine } from './offset-line.js';

const PPM = 1e-6;

/** A log's clock found by its movement, or why it cannot be found. */
export type Alignment =
  | {
      readonly kind: 'aligned';
      readonly clock: ClockFit;
      readonly offsetSdS: number;
      readonly driftSdPpm: number;
      /** Second-best match / best match: near 1 the logs could lie otherwise. */
      readonly ambiguity: number;
    }
  | { readonly kind: 'refused'; readonly why: string };

const aligned = (line: Line, leastSdS: number, ambiguity: number): Alignment => {
  const clock = clockOf(line);
  return {
    kind: 'aligned',
    clock,
    offsetSdS: Math.hypot(leastSdS, line.offsetSdS, line.slopeSd * (clock.offsetS - line.middleS)),
    driftSdPpm: line.slopeSd / PPM,
    ambiguity,
  };
};

const refused = (why: string): Alignment => ({ kind: 'refused', why });
const NO_FIT = 'its movement does not fit that of the track';

/** Passes of windows along the whole overlap, each closer to the line of the one before. */
const refined = (fine: Pair, first: Pick<Line, 'middleS' | 'offsetS' | 'slope'>): Line | null => {
  const set = ALIGN_SETTINGS;
  const endS = fine.signalStartS + fine.signal.length / fine.gridHz;
  let [line, found]: [typeof first, Line | null] = [first, null];
  for (const reachS of [set.windowReachS, set.windowAgainS, set.windowAgainS]) {
    const points: (readonly [number, number])[] = [];
    for (let atS = fine.signalStartS + set.windowS / 2; atS < endS; atS += set.windowS) {
      const offset = windowOffset(fine, atS, set.windowS / 2, onLine(line, atS), reachS);
      if (offset !== null) points.push([atS, offset]);
    }
    if (points.length < set.fewestWindows) return null;
    found = lineThrough(points, 0);
    line = found;
  }
  return found;
};

/** By single strokes, at every place where the starts and stops would let the clocks lie. */
const byStrokes = (
  log: Recording,
  main: Recording,
  edges: readonly Edge[],
  candidates: readonly Candidate[],
): Alignment => {
  const set = ALIGN_SETTINGS;
  const coarse = pairOf(log, speedGrid(main, set.coarseHz)!, set.strokeHz);
  const [first, second] = candidates
    .map(({ offsetS }) => strokeMatch(coarse, edges, offsetS))
    .filter((match) => match !== null)
    .sort((a, b) => b.score - a.score);
  if (first === undefined || first.score < set.leastMatch) return refused(NO_FIT);
  const ambiguity = Math.max(first.ambiguity, (second?.score ?? 0) / first.score);
  if (ambiguity > set.ambiguous) return refused('its strokes fit the track almost as well at another place');
  const line = refined(pairOf(log, speedGrid(main, set.fineHz)!, set.strokeHz), {
    middleS: first.middleS,
    offsetS: first.offsetS,
    slope: -first.driftPpm * PPM,
  });
  return line === null
    ? refused('too few minutes of it fit the track')
    : aligned(line, set.leastSdS, ambiguity);
};

/** Without strokes in the track: by the starts and stops alone. */
const byEdges = (pair: Pair, edges: readonly Edge[], [first, second]: readonly Candidate[]): Alignment => {
  const set = ALIGN_SETTINGS;
  if (first === undefined || first.score < set.leastMatch) return refused(NO_FIT);
  const ambiguity = (second?.score ?? 0) / first.score;
  if (ambiguity > set.ambiguous) return refused('its starts and stops fit the track at more than one place');
  const points = edges.flatMap(({ atS }): (readonly [number, number])[] => {
    const offset = windowOffset(pair, atS, set.edgeS, first.offsetS, set.sameSlowS / 2);
    return offset === null ? [] : [[atS, offset]];
  });
  if (points.length < set.fewestOfAKind) return refused(NO_FIT);
  // Starts and stops tell a drift only roughly: it is left at none, and its sd says so.
  const offsetS = median(points.map(([, offset]) => offset));
  return aligned({ ...lineThrough(points, set.slowSdS), offsetS, slope: 0 }, 0, ambiguity);
};

/**
 * Lay the clock of an accelerometer log on the clock of a track, by how both moved: starts and stops find the
 * place, single strokes the moment, a robust line through 60 s windows the drift. A constant lag of the receiver
 * cannot be seen. No mount has to be known.
 */
export const alignClocks = (main: Recording, log: Recording): Alignment => {
  const set = ALIGN_SETTINGS;
  if (log.channels.acceleration === undefined) return refused('it holds no accelerations');
  if (Math.max(main.durationS, log.durationS) > set.longestS)
    return refused('a log of more than a day holds several outings; cut it into them');
  const speed = speedGrid(main, set.coarseHz);
  if (speed === null) return refused('the track has no speed');
  const edges = edgesOf(speed);
  const count = (kind: Edge['kind']) => edges.filter((edge) => edge.kind === kind).length;
  if (Math.max(count('start'), count('stop')) < set.fewestOfAKind)
    return refused(
      `the track shows too few starts and stops (${count('start')} and ${count('stop')}; two of a kind are needed), and steady rowing repeats every stroke`,
    );
  const pair = pairOf(log, speed, set.slowHz);
  const candidates = slowMatch(thinned(pair, set.slowEvery), edges);
  return speed.fine ? byStrokes(log, main, edges, candidates) : byEdges(pair, edges, candidates);
};

/**
 * Whether an offset of the log's clock is the one that {@link alignClocks} could find, seen at a glance: the strokes
 * of starts and stops fit there so well that any other place, did it explain all of the movement, would be ambiguous
 * beside it. False says nothing: the whole search has to tell.
 */
export const isFitting = (main: Recording, log: Recording, offsetS: number): boolean => {
  const set = ALIGN_SETTINGS;
  const speed = fineSpeedGrid(main, set.coarseHz);
  if (speed === null || log.channels.acceleration === undefined) return false;
  if (Math.max(main.durationS, log.durationS) > set.longestS) return false;
  return strokeFit(pairOf(log, speed, set.strokeHz), edgesOf(speed), offsetS) > set.ambiguous;
};
