import type { Recording } from '../recording/index.js';
import { energyOf, median, parabolaVertex } from '../signal/index.js';
import { ALIGN_SETTINGS } from './align-settings.js';
import { isWithin, type MatchAxes, matchAt, matchAxes } from './lag-match.js';
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

const everySo = (values: Float64Array, every: number): Float64Array => {
  const kept = new Float64Array(Math.ceil(values.length / every));
  for (let i = 0; i < kept.length; i++) kept[i] = values[i * every]!;
  return kept;
};

/** Every so many-th value of the two signals: enough of them for movement that is slow against the new grid. */
export const thinned = (pair: Pair, every: number): Pair => {
  const [x, y, z] = pair.axes.axes;
  return {
    ...pair,
    gridHz: pair.gridHz / every,
    signal: everySo(pair.signal, every),
    axes: matchAxes([everySo(x, every), everySo(y, every), everySo(z, every)]),
  };
};

/** Offset of the log's clock that a lag of the grid means, s. */
const offsetOfLag = (pair: Pair, lag: number): number =>
  pair.signalStartS - pair.axesStartS - lag / pair.gridHz;
const lagOfOffset = (pair: Pair, offsetS: number): number =>
  Math.round((pair.signalStartS - pair.axesStartS - offsetS) * pair.gridHz);

/** A stretch of the signal about a moment. */
interface Around {
  readonly from: number;
  readonly to: number;
  readonly power: number;
}

/** @returns null where less than half of the stretch is left of the signal */
const around = ({ signal, signalStartS, gridHz }: Pair, atS: number, halfS: number): Around | null => {
  const middle = Math.round((atS - signalStartS) * gridHz);
  const half = Math.round(halfS * gridHz);
  const from = Math.max(0, middle - half);
  const to = Math.min(signal.length, middle + half);
  return to - from < half ? null : { from, to, power: energyOf(signal, from, to) };
};

/** Matches of a stretch at lags in a row; null where the axes do not reach over it at each of them. */
const matchesAround = (
  pair: Pair,
  atS: number,
  halfS: number,
  firstLag: number,
  count: number,
): Float64Array | null => {
  const stretch = around(pair, atS, halfS);
  if (stretch === null) return null;
  const { from, to, power } = stretch;
  if (!isWithin(pair.axes, from, to, firstLag) || !isWithin(pair.axes, from, to, firstLag + count - 1))
    return null;
  const matches = new Float64Array(count);
  for (let i = 0; i < count; i++) matches[i] = matchAt(pair.signal, from, to, power, pair.axes, firstLag + i);
  return matches;
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
  const tops: number[] = [];
  for (let i = 0; i < values.length; i++) {
    const before = i > 0 ? values[i - 1]! : 0;
    const after = i + 1 < values.length ? values[i + 1]! : 0;
    if (values[i]! > 0 && values[i]! >= before && values[i]! >= after) tops.push(i);
  }
  for (const i of tops.sort((a, b) => values[b]! - values[a]!)) {
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
  const least = -pair.signal.length;
  const reach = pair.axes.axes[0].length;
  const sums = new Float64Array(reach - least + 1);
  const starts = new Int32Array(sums.length);
  const stops = new Int32Array(sums.length);
  for (const { atS, kind } of edges) {
    const stretch = around(pair, atS, set.edgeS);
    if (stretch === null) continue;
    const { from, to, power } = stretch;
    const seen = kind === 'start' ? starts : stops;
    for (let lag = Math.max(least, -from); lag + to <= reach; lag++) {
      sums[lag - least] = sums[lag - least]! + matchAt(pair.signal, from, to, power, pair.axes, lag);
      seen[lag - least] = seen[lag - least]! + 1;
    }
  }
  const scores = new Float64Array(sums.length);
  for (let i = 0; i < scores.length; i++)
    if (
      Math.max(starts[i]!, stops[i]!) >= set.fewestOfAKind &&
      starts[i]! + stops[i]! >= set.commonShare * edges.length
    )
      scores[i] = sums[i]! / edges.length;
  const same = set.sameSlowS * pair.gridHz;
  const peaks = peaksOf(scores, same).map((at) => ({
    offsetS: offsetOfLag(pair, least + at),
    score: scores[at]!,
  }));
  return peaks.filter(({ score }) => score >= set.candidateShare * peaks[0]!.score);
};

/**
 * How well the single strokes of starts and stops fit at an offset, to a step of the grid: mean of their matches, 0
 * where too few of them lie in both logs.
 */
export const strokeFit = (pair: Pair, edges: readonly Edge[], offsetS: number): number => {
  const set = ALIGN_SETTINGS;
  const sums = new Float64Array(3);
  let common = 0;
  for (const { atS } of edges) {
    const matches = matchesAround(pair, atS, set.edgeS, lagOfOffset(pair, offsetS) - 1, sums.length);
    if (matches === null) continue;
    common++;
    for (let i = 0; i < sums.length; i++) sums[i] = sums[i]! + matches[i]!;
  }
  const enough = common >= set.fewestOfAKind && common >= set.commonShare * edges.length;
  return enough ? Math.max(...sums) / common : 0;
};

/** Matches of one start or stop at lags in a row. */
interface StrokeRow {
  readonly atS: number;
  readonly matches: Float64Array;
}

/** Offsets and drifts near the slow match, tried against the single strokes of all starts and stops. */
export const strokeMatch = (pair: Pair, edges: readonly Edge[], aboutS: number) => {
  const set = ALIGN_SETTINGS;
  const [centre, reach] = [lagOfOffset(pair, aboutS), Math.round(set.strokeReachS * pair.gridHz)];
  const margin = Math.ceil(set.mostDriftPpm * PPM * (pair.signal.length / 2)) + 1;
  const size = reach + margin;
  const rows = edges
    .map(({ atS }) => ({
      atS,
      matches: matchesAround(pair, atS, set.edgeS, centre - size, 2 * size + 1),
    }))
    .filter((row): row is StrokeRow => row.matches !== null);
  if (rows.length === 0) return null;
  const middleS = median(rows.map(({ atS }) => atS));
  let best: { scores: Float64Array; peak: Peak; driftPpm: number } | null = null;
  for (let driftPpm = -set.mostDriftPpm; driftPpm <= set.mostDriftPpm; driftPpm += set.driftStepPpm) {
    const scores = new Float64Array(2 * reach + 1);
    for (const { atS, matches } of rows) {
      const shift = margin + Math.round(driftPpm * PPM * (atS - middleS) * pair.gridHz);
      for (let i = 0; i < scores.length; i++) scores[i] = scores[i]! + matches[i + shift]! / rows.length;
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
  const matches = matchesAround(pair, atS, halfS, centre - reach, 2 * reach + 1);
  if (matches === null) return null;
  let at = 0;
  for (let i = 1; i < matches.length; i++) if (matches[i]! > matches[at]!) at = i;
  if (at === 0 || at === matches.length - 1 || matches[at]! < ALIGN_SETTINGS.leastMatch) return null;
  const { offset } = parabolaVertex(matches[at - 1]!, matches[at]!, matches[at + 1]!);
  return offsetOfLag(pair, centre - reach + at + offset);
};
