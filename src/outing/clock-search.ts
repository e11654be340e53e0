import type { Recording } from '../recording/index.js';
import { median, parabolaVertex } from '../signal/index.js';
import { ALIGN_SETTINGS } from './align-settings.js';
import { type MatchAxes, matchAt, matchAxes } from './lag-match.js';
import { accelerationOf, axesOf, type Edge, type SpeedGrid } from './movement-signal.js';

const PPM = 1e-6;

/** The two signals of one band, on one grid. */
export interface Pair {
  readonly gridHz: number;
  readonly signal: Float64Array;
  readonly signalStartS: number;
  readonly axes: MatchAxes;
  readonly axesStartS: number;
}

/** The track's acceleration and the log's axes, up to a frequency. */
export const pairOf = (log: Recording, speed: SpeedGrid, topHz: number): Pair => {
  const { startS, axes } = axesOf(log.channels.acceleration!, topHz, speed.gridHz);
  return {
    gridHz: speed.gridHz,
    signal: accelerationOf(speed, topHz),
    signalStartS: speed.startS,
    axes: matchAxes(axes),
    axesStartS: startS,
  };
};

/** Every so many-th value of the two signals: enough of them for movement that is slow against the new grid. */
export const thinned = (pair: Pair, every: number): Pair => {
  const thin = (values: Float64Array): Float64Array =>
    Float64Array.from({ length: Math.ceil(values.length / every) }, (_, i) => values[i * every]!);
  const [x, y, z] = pair.axes.axes;
  return {
    ...pair,
    gridHz: pair.gridHz / every,
    signal: thin(pair.signal),
    axes: matchAxes([thin(x), thin(y), thin(z)]),
  };
};

/** Offset of the log's clock that a lag of the grid means, s. */
const offsetOfLag = (pair: Pair, lag: number): number =>
  pair.signalStartS - pair.axesStartS - lag / pair.gridHz;
const lagOfOffset = (pair: Pair, offsetS: number): number =>
  Math.round((pair.signalStartS - pair.axesStartS - offsetS) * pair.gridHz);

const matchAround = (pair: Pair, atS: number, halfS: number, lag: number): number | null => {
  const middle = Math.round((atS - pair.signalStartS) * pair.gridHz);
  const half = Math.round(halfS * pair.gridHz);
  const [from, to] = [Math.max(0, middle - half), Math.min(pair.signal.length, middle + half)];
  return to - from < half ? null : matchAt(pair.signal, from, to, pair.axes, lag);
};

/** A place where the clocks may lie. */
export interface Candidate {
  readonly offsetS: number;
  /** Share of the movement at starts and stops that the match explains. */
  readonly score: number;
}

interface Peak {
  readonly at: number;
  readonly ambiguity: number;
}

/** The highest value, and the highest of those farther than `same` from it, as a share. */
const highest = (values: Float64Array, same: number): Peak => {
  let at = 0;
  for (let i = 1; i < values.length; i++) if (values[i]! > values[at]!) at = i;
  let second = 0;
  for (let i = 0; i < values.length; i++) if (Math.abs(i - at) > same) second = Math.max(second, values[i]!);
  return { at, ambiguity: values[at]! > 0 ? second / values[at]! : 1 };
};

/** Places where values stand highest, the highest first, each farther than `same` from those before it. */
const peaksOf = (values: Float64Array, same: number): readonly number[] => {
  const found: number[] = [];
  const order = Array.from(values.keys())
    .filter((i) => values[i]! > 0 && values[i]! >= (values[i - 1] ?? 0) && values[i]! >= (values[i + 1] ?? 0))
    .sort((a, b) => values[b]! - values[a]!);
  for (const i of order) {
    if (found.length === ALIGN_SETTINGS.mostCandidates) break;
    if (found.every((other) => Math.abs(other - i) > same)) found.push(i);
  }
  return found;
};

/**
 * Every offset tried against all starts and stops, in movement too slow to repeat with the strokes.
 * @returns the places where the clocks may lie, the best first
 */
export const slowMatch = (pair: Pair, edges: readonly Edge[]): readonly Candidate[] => {
  const set = ALIGN_SETTINGS;
  const [least, most] = [-pair.signal.length, pair.axes.axes[0].length];
  const scores = new Float64Array(most - least + 1);
  for (let lag = least; lag <= most; lag++) {
    let [sum, starts, stops] = [0, 0, 0];
    for (const { atS, kind } of edges) {
      const match = matchAround(pair, atS, set.edgeS, lag);
      if (match === null) continue;
      sum += match;
      if (kind === 'start') starts += 1;
      else stops += 1;
    }
    const common = starts + stops;
    if (Math.max(starts, stops) >= set.fewestOfAKind && common >= set.commonShare * edges.length)
      scores[lag - least] = sum / edges.length;
  }
  const same = set.sameSlowS * pair.gridHz;
  const peaks = peaksOf(scores, same).map((at) => ({
    offsetS: offsetOfLag(pair, least + at),
    score: scores[at]!,
  }));
  return peaks.filter(({ score }) => score >= set.candidateShare * peaks[0]!.score);
};

/** Offsets and drifts near the slow match, tried against the single strokes of all starts and stops. */
export const strokeMatch = (pair: Pair, edges: readonly Edge[], aboutS: number) => {
  const set = ALIGN_SETTINGS;
  const [centre, reach] = [lagOfOffset(pair, aboutS), Math.round(set.strokeReachS * pair.gridHz)];
  const margin = Math.ceil(set.mostDriftPpm * PPM * (pair.signal.length / 2)) + 1;
  const size = reach + margin;
  const rows = edges
    .map(({ atS }) => ({
      atS,
      matches: Array.from({ length: 2 * size + 1 }, (_, i) =>
        matchAround(pair, atS, set.edgeS, centre - size + i),
      ),
    }))
    .filter(({ matches }) => matches.every((match) => match !== null));
  if (rows.length === 0) return null;
  const middleS = median(rows.map(({ atS }) => atS));
  let best: { scores: Float64Array; peak: Peak; driftPpm: number } | null = null;
  for (let driftPpm = -set.mostDriftPpm; driftPpm <= set.mostDriftPpm; driftPpm += set.driftStepPpm) {
    const scores = new Float64Array(2 * reach + 1);
    for (const { atS, matches } of rows) {
      const shift = Math.round(driftPpm * PPM * (atS - middleS) * pair.gridHz);
      for (let i = 0; i < scores.length; i++) scores[i]! += matches[i + margin + shift]! / rows.length;
    }
    const peak = highest(scores, set.sameStrokeS * pair.gridHz);
    if (best === null || scores[peak.at]! > best.scores[best.peak.at]!) best = { scores, peak, driftPpm };
  }
  const { scores, peak, driftPpm } = best!;
  return {
    middleS,
    offsetS: offsetOfLag(pair, centre - reach + peak.at),
    driftPpm,
    score: scores[peak.at]!,
    ambiguity: peak.ambiguity,
  };
};

/** Offset of one stretch near a line, between the steps of the grid; null where nothing clear stands there. */
export const windowOffset = (
  pair: Pair,
  atS: number,
  halfS: number,
  aboutS: number,
  reachS: number,
): number | null => {
  const [centre, reach] = [lagOfOffset(pair, aboutS), Math.round(reachS * pair.gridHz)];
  const matches = Array.from({ length: 2 * reach + 1 }, (_, i) =>
    matchAround(pair, atS, halfS, centre - reach + i),
  );
  let at = 0;
  for (const [i, match] of matches.entries()) {
    if (match === null) return null;
    if (match > matches[at]!) at = i;
  }
  if (at === 0 || at === matches.length - 1 || matches[at]! < ALIGN_SETTINGS.leastMatch) return null;
  const { offset } = parabolaVertex(matches[at - 1]!, matches[at]!, matches[at + 1]!);
  return offsetOfLag(pair, centre - reach + at + offset);
};
