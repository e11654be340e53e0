import type { Channel } from '../recording/index.js';
import { median, quantileInPlace } from '../signal/index.js';
import { MOUNT_SETTINGS } from './stroke-settings.js';
import { dot, unit, type Vector } from './vector.js';

/** A stretch of samples during which the sensor sat one way. */
export interface MountSpan {
  /** First sample, and one after the last. */
  readonly from: number;
  readonly to: number;
}

/** Which way the sensor sat for a moment. */
interface Look {
  readonly from: number;
  readonly to: number;
  readonly up: Vector;
}

/** The direction of a vector; null where there is none. */
const directionOf = (v: Vector): Vector | null => (Math.hypot(...v) > 0 ? unit(v) : null);

/** Angle between two unit vectors, degrees. */
const between = (p: Vector, q: Vector): number =>
  (Math.acos(Math.max(-1, Math.min(1, dot(p, q)))) * 180) / Math.PI;

const usual = (looks: readonly Look[]): Vector | null =>
  directionOf([0, 1, 2].map((axis) => median(looks.map(({ up }) => up[axis]!))) as unknown as Vector);

/** Median of some of the values from one up to another, spread evenly over them. */
const medianOfSome = (values: Float64Array, from: number, to: number): number => {
  const step = Math.max(1, Math.floor((to - from) / MOUNT_SETTINGS.mostSamples));
  const some = new Float64Array(Math.ceil((to - from) / step));
  for (let i = 0; i < some.length; i++) some[i] = values[from + i * step]!;
  return quantileInPlace(some, 0.5);
};

/** Where gravity showed, look by look. */
const looksAt = ({ atS, columns }: Channel): Look[] => {
  const looks: Look[] = [];
  for (let from = 0; from < atS.length; ) {
    let to = from;
    while (to < atS.length && atS[to]! < atS[from]! + MOUNT_SETTINGS.lookS) to++;
    const up = directionOf(columns.map((column) => medianOfSome(column, from, to)) as unknown as Vector);
    if (up && to - from >= MOUNT_SETTINGS.leastSamples) looks.push({ from, to, up });
    from = to;
  }
  return looks;
};

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/**
 * How far the sensor turned at a look and stayed turned, less how loose it sat on either side, degrees: greatest
 * at the turn itself. 0 where it did not sit still on both sides.
 */
const turnAt = (looks: readonly Look[], at: number): number => {
  const { sideLooks, leastLooks, leastTurnDeg, sidesShare } = MOUNT_SETTINGS;
  const sides = [looks.slice(Math.max(0, at - sideLooks), at), looks.slice(at + 1, at + 1 + sideLooks)];
  const [before, after] = sides.map(usual);
  if (!before || !after || sides.some((side) => side.length < leastLooks)) return 0;
  const turn = between(before, after);
  const off = sides.map((side, i) => side.map(({ up }) => between(up, i === 0 ? before : after)));
  if (turn < leastTurnDeg || Math.max(...off.map(median)) > sidesShare * turn) return 0;
  return Math.max(0, turn - mean(off.flat()));
};

/**
 * Stretches between which the sensor was put back another way round, given by where gravity points: in one mount
 * only a body turns it for long. A sensor turned about the upright alone is not seen.
 * @param channel acceleration, three components, m/s²
 * @returns one or more, in order; the seconds in which it was moved are in none
 */
export const mountSpans = (channel: Channel): readonly MountSpan[] => {
  const looks = looksAt(channel);
  const turns = looks.map((_, i) => turnAt(looks, i));
  const spans: MountSpan[] = [];
  let from = 0;
  for (const [i, turn] of turns.entries()) {
    const start = Math.max(0, i - MOUNT_SETTINGS.sideLooks);
    const near = turns.slice(start, i + MOUNT_SETTINGS.sideLooks + 1);
    if (turn === 0 || near.indexOf(Math.max(...near)) !== i - start) continue;
    spans.push({ from, to: looks[i]!.from });
    from = looks[i]!.to;
  }
  return [...spans, { from, to: channel.atS.length }];
};

/** The samples of a span as a channel of its own. */
export const spanOf = (channel: Channel, { from, to }: MountSpan): Channel => ({
  ...channel,
  atS: channel.atS.subarray(from, to),
  columns: channel.columns.map((column) => column.subarray(from, to)),
  gaps: channel.gaps.filter(({ fromS, toS }) => fromS >= channel.atS[from]! && toS <= channel.atS[to - 1]!),
});
