import type { Mount } from '../contract/boat.js';
import type { Channel } from '../recording/index.js';
import { usualIntervalS } from '../recording/index.js';
import { butterworth, difference, evenGrid, median, zeroPhase } from '../signal/index.js';
import { SIGNAL_SETTINGS } from './stroke-settings.js';
import { dot, unit, type Vector } from './vector.js';

/** One acceleration along the hull, evenly sampled. */
export interface Surge {
  /** Time of the first sample on the recording's clock, s. */
  readonly startS: number;
  readonly rateHz: number;
  /** Acceleration along the surge axis, slow tilt removed, m/s²; its sign may yet be unknown. */
  readonly mps2: Float64Array;
  /** The same with slow tilt and drift left in, m/s². */
  readonly rawMps2: Float64Array;
  /** Acceleration along the upright, slow drift removed, m/s²; null where gravity does not show. */
  readonly heaveMps2: Float64Array | null;
  /** 1 where samples are missing. */
  readonly mask: Uint8Array;
  /** Unit vectors in the sensor's axes: along the hull, and up (null where gravity does not show). */
  readonly axis: readonly [number, number, number];
  readonly up: readonly [number, number, number] | null;
  /** True where axis and sign are those of a mount that was given. */
  readonly given: boolean;
}

/** Columns projected on a direction. */
const along = (columns: readonly Float64Array[], [ax, ay, az]: Vector): Float64Array => {
  const [x, y, z] = columns as [Float64Array, Float64Array, Float64Array];
  const made = new Float64Array(x.length);
  for (let i = 0; i < made.length; i++) made[i] = x[i]! * ax + y[i]! * ay + z[i]! * az;
  return made;
};

/** Sum of the products of two columns. */
const productSum = (p: Float64Array, q: Float64Array): number => {
  let sum = 0;
  for (let i = 0; i < p.length; i++) sum += p[i]! * q[i]!;
  return sum;
};

/** High-passed at both ends of the band in which strokes live. */
export const withoutDrift = (values: Float64Array, rateHz: number): Float64Array => {
  const cutoff = SIGNAL_SETTINGS.highPassHz / (rateHz / 2);
  const slow = zeroPhase(values, butterworth(2, cutoff), Math.round(1 / cutoff));
  return difference(values, slow);
};

/** Direction of greatest variance of three columns in a band, by power iteration on their covariance. */
const principal = (bands: readonly Float64Array[], forbidden: Vector | null): Vector => {
  const c = bands.map((p) => bands.map((q) => productSum(p, q)));
  const flat = (v: Vector): Vector => {
    if (!forbidden) return v;
    const share = dot(v, forbidden);
    return [v[0] - share * forbidden[0], v[1] - share * forbidden[1], v[2] - share * forbidden[2]];
  };
  const starts: Vector[] = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];
  let best: Vector = [1, 0, 0];
  let most = -1;
  for (const start of starts) {
    let v = flat(start);
    if (Math.hypot(...v) < 0.1) continue;
    for (let k = 0; k < 60; k++) {
      v = unit(v);
      const next = [0, 1, 2].map((p) => c[p]![0]! * v[0] + c[p]![1]! * v[1] + c[p]![2]! * v[2]);
      v = flat([next[0]!, next[1]!, next[2]!]);
      if (Math.hypot(...v) === 0) break;
    }
    const size = Math.hypot(...v);
    if (size > most) {
      most = size;
      best = size > 0 ? unit(v) : unit(flat(start));
    }
  }
  return best;
};

/** The level direction that a given mount calls forward; null where gravity shows that the sensor sits otherwise. */
const givenAxis = (given: Mount | null, up: Vector | null): Vector | null => {
  if (!given || !up) return null;
  const { forward_axis: forward, up_axis: upright } = given;
  if (dot(upright, up) < SIGNAL_SETTINGS.sameUpright * Math.hypot(...upright)) return null;
  const rise = dot(forward, up);
  const level: Vector = [forward[0] - rise * up[0], forward[1] - rise * up[1], forward[2] - rise * up[2]];
  return Math.hypot(...level) < 0.5 ? null : unit(level);
};

/**
 * The surge acceleration of an accelerometer in any mount: gravity gives the level; the level direction that
 * varies most above the band of chop is the first guess at the hull's axis, the one that varies most in the
 * whole band of strokes the second, where it differs. The sign is left to the strokes.
 * @param channel acceleration, three components, m/s²
 * @param mount as given, which goes before the guesses where gravity agrees with it; null for none
 * @returns the given axis and one or two guesses that differ; none where it is sampled too slowly
 */
export const surgesOf = (channel: Channel, mount: Mount | null = null): readonly Surge[] => {
  const intervalS = usualIntervalS(channel.atS);
  if (intervalS === null || 1 / intervalS < SIGNAL_SETTINGS.leastRateHz) return [];
  const fast = 1 / intervalS >= 0.9 * SIGNAL_SETTINGS.rateHz;
  const rateHz = fast ? SIGNAL_SETTINGS.rateHz : SIGNAL_SETTINGS.rateHz / 2;
  const grid = evenGrid(channel.atS, channel.columns, 1 / rateHz, Math.max(0.3, 5 * intervalS));
  const means = grid.columns.map((column) => median(column)) as unknown as Vector;
  const up = Math.hypot(...means) >= SIGNAL_SETTINGS.leastGravityMps2 ? unit(means) : null;
  const axisIn = (low: number): Vector => {
    const high = Math.min(0.9, SIGNAL_SETTINGS.axisBandHz[1] / (rateHz / 2));
    const bands = grid.columns.map((column) => {
      const smooth = zeroPhase(column, butterworth(2, high));
      const slow = zeroPhase(column, butterworth(2, low / (rateHz / 2)), Math.round(rateHz / low));
      return difference(smooth, slow);
    });
    return principal(bands, up);
  };
  const sharp = axisIn(SIGNAL_SETTINGS.axisBandHz[0]);
  const wide = axisIn(SIGNAL_SETTINGS.wideBandHz);
  const given = givenAxis(mount, up);
  const isSame = (p: Vector, q: Vector): boolean => Math.abs(dot(p, q)) > SIGNAL_SETTINGS.sameAxis;
  const guesses = isSame(sharp, wide) ? [sharp] : [sharp, wide];
  const axes = given ? [given, ...guesses.filter((axis) => !isSame(axis, given))] : guesses;
  return axes.map((axis) => {
    const rawMps2 = along(grid.columns, axis);
    return {
      startS: grid.start,
      rateHz,
      mps2: withoutDrift(rawMps2, rateHz),
      rawMps2,
      heaveMps2: up && withoutDrift(along(grid.columns, up), rateHz),
      mask: grid.mask,
      axis,
      up,
      given: axis === given,
    };
  });
};
