import { smoothTrack } from '../motion/index.js';
import { type Channel, type Recording, usualIntervalS } from '../recording/index.js';
import { difference, evenGrid, quantile } from '../signal/index.js';
import { lowPass } from './low-pass.js';

/** Speed of a boat on an even grid, from the log of its positions. */
export interface SpeedGrid {
  /** Time of the first value on the log's clock, s. */
  readonly startS: number;
  readonly gridHz: number;
  readonly mps: Float64Array;
  /** True where the speed shows what happens within a stroke. */
  readonly fine: boolean;
}

/** A start or a stop of the boat, on the log's clock. */
export interface Edge {
  readonly atS: number;
  readonly kind: 'start' | 'stop';
}

/** How movement is looked at to match two logs. */
export const MOVEMENT_SETTINGS = Object.freeze({
  /** Logged speeds this many a second show single strokes; 3 to 5: two a stroke at 40 spm and more. */
  fineHz: 3,
  /** Drift and tilt slower than this are not movement, Hz; 0.01 to 0.03. */
  slowHz: 0.02,
  /** Accelerations beyond this are knocks, m/s²; 4 to 8: a catch in an eight reaches 8, rarely. */
  knockMps2: 5,
  /** A start: speed passes this share of the usual, after less than `stopShare`; 0.4 to 0.6 and 0.2 to 0.35. */
  startShare: 0.5,
  stopShare: 0.3,
  /** Speeds smoother than this tell starts and stops, Hz; 0.05 to 0.15. */
  edgeHz: 0.1,
});

/** Zero phase, slow drift taken off, nothing faster than `topHz`. */
export const banded = (values: Float64Array, topHz: number, gridHz: number): Float64Array =>
  difference(lowPass(values, topHz, gridHz), lowPass(values, MOVEMENT_SETTINGS.slowHz, gridHz));

/** Values kept within a limit to either side of 0, in place. */
const cutOff = (values: Float64Array, limit: number): Float64Array => {
  for (let i = 0; i < values.length; i++) values[i] = Math.max(-limit, Math.min(limit, values[i]!));
  return values;
};

/** Slope from neighbour to neighbour, per second. */
const slopeOf = (values: Float64Array, gridHz: number): Float64Array => {
  const last = values.length - 1;
  const slope = new Float64Array(values.length);
  for (let i = 0; i <= last; i++) {
    const before = Math.max(0, i - 1);
    const after = Math.min(last, i + 1);
    slope[i] = ((values[after]! - values[before]!) * gridHz) / Math.max(1, after - before);
  }
  return slope;
};

/** Speed on an even grid as logged; null where it is not logged often enough to show strokes. */
export const fineSpeedGrid = ({ channels: { speed } }: Recording, gridHz: number): SpeedGrid | null => {
  const usualS = speed === undefined ? null : usualIntervalS(speed.atS);
  if (speed === undefined || usualS === null || usualS > 1 / MOVEMENT_SETTINGS.fineHz) return null;
  const grid = evenGrid(speed.atS, speed.columns, 1 / gridHz, 1);
  return { startS: grid.start, gridHz, mps: grid.columns[0]!, fine: true };
};

/**
 * Speed on an even grid: as logged where that is often enough to show strokes, else from the smoothed track.
 * @returns null where the log tells no speed
 */
export const speedGrid = (log: Recording, gridHz: number): SpeedGrid | null => {
  const logged = fineSpeedGrid(log, gridHz);
  if (logged !== null) return logged;
  const { track } = smoothTrack(log, { boat: null });
  if (track === null || track.atS.length < 2) return null;
  const grid = evenGrid(track.atS, [track.speedMps], 1 / gridHz, 1);
  return { startS: grid.start, gridHz, mps: grid.columns[0]!, fine: false };
};

/** Acceleration along the way, m/s², up to a frequency. */
export const accelerationOf = ({ mps, gridHz }: SpeedGrid, topHz: number): Float64Array =>
  banded(slopeOf(lowPass(mps, topHz, gridHz), gridHz), topHz, gridHz);

/** The three axes of an accelerometer on an even grid, m/s², knocks cut off, up to a frequency. */
export const axesOf = (channel: Channel, topHz: number, gridHz: number) => {
  const grid = evenGrid(channel.atS, channel.columns, 1 / gridHz, 1);
  const { knockMps2 } = MOVEMENT_SETTINGS;
  const axes = grid.columns.map((column) => cutOff(banded(column, topHz, gridHz), knockMps2)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  return { startS: grid.start, axes };
};

/** Every start and stop that a speed shows, in time order. */
export const edgesOf = (speed: SpeedGrid): readonly Edge[] => {
  const { startShare, stopShare, edgeHz } = MOVEMENT_SETTINGS;
  const smooth = lowPass(speed.mps, edgeHz, speed.gridHz);
  const usual = quantile(smooth, 0.9);
  const edges: Edge[] = [];
  let moving = smooth[0]! > startShare * usual;
  for (let i = 0; i < smooth.length; i++) {
    const turned = moving ? smooth[i]! < stopShare * usual : smooth[i]! > startShare * usual;
    if (!turned) continue;
    moving = !moving;
    edges.push({ atS: speed.startS + i / speed.gridHz, kind: moving ? 'start' : 'stop' });
  }
  return edges;
};
