import type { Channel } from '../recording/index.js';
import { evenGrid, meanSquare } from '../signal/index.js';
import { SIGNAL_SETTINGS } from '../strokes/stroke-settings.js';
import { type CraftFamily, RATE_RANGE_SPM } from '../units/craft.js';

/** A movement that comes again and again. */
export interface Rhythm {
  readonly rateSpm: number;
  /** How alike one cycle is to the next: 1 the same, 0 nothing alike. */
  readonly likeness: number;
  /** Share of the usual cycle that is no plain swing: waves swing a moored boat plainly, strokes do not. */
  readonly sharpness: number;
  /** Power up and down over that across: no stroke lifts a boat as much as it pushes it; null where up is not known. */
  readonly heaveShare: number | null;
}

/** How a rhythm is looked for. */
export const RHYTHM_SETTINGS = Object.freeze({
  /** Samples a second looked at; 15 to 30: three a stroke at the highest rate, and its harmonics. */
  gridHz: 20,
  /** What is slower than so many seconds is no stroke: tilt, a change of speed; 6 to 10. */
  slowS: 6,
  /** The first likeness within this share of the greatest is the period; 0.85 to 0.95: later ones are its doubles. */
  firstShare: 0.9,
});

/** Every value less the mean over half a window to either side. */
const withoutSlow = (values: Float64Array, half: number): Float64Array => {
  const sums = new Float64Array(values.length + 1);
  for (let i = 0; i < values.length; i++) sums[i + 1] = sums[i]! + values[i]!;
  const rest = new Float64Array(values.length);
  for (let i = 0; i < values.length; i++) {
    const from = Math.max(0, i - half);
    const to = Math.min(values.length, i + half + 1);
    rest[i] = values[i]! - (sums[to]! - sums[from]!) / (to - from);
  }
  return rest;
};

/** How alike signals are to themselves some samples later, all axes together. */
const likenessAt = (columns: readonly Float64Array[], lag: number): number => {
  let both = 0;
  let early = 0;
  let late = 0;
  for (const column of columns)
    for (let i = 0; i + lag < column.length; i++) {
      const one = column[i]!;
      const two = column[i + lag]!;
      both += one * two;
      early += one * one;
      late += two * two;
    }
  return early > 0 && late > 0 ? both / Math.sqrt(early * late) : 0;
};

/** The mean cycle of each signal. */
const cyclesOf = (columns: readonly Float64Array[], period: number): Float64Array[] => {
  const bins = Math.round(period);
  return columns.map((column) => {
    const sums = new Float64Array(bins);
    const counts = new Uint32Array(bins);
    for (let i = 0; i < column.length; i++) {
      const bin = Math.floor(((i / period) % 1) * bins);
      sums[bin]! += column[i]!;
      counts[bin]!++;
    }
    return sums.map((sum, bin) => (counts[bin]! > 0 ? sum / counts[bin]! : 0));
  });
};

/** Share of the cycles' power that lies beyond their first harmonic. */
const sharpnessOf = (cycles: readonly Float64Array[]): number => {
  let [all, first] = [0, 0];
  for (const cycle of cycles) {
    let [re, im] = [0, 0];
    for (let bin = 0; bin < cycle.length; bin++) {
      re += (cycle[bin]! * Math.cos((2 * Math.PI * bin) / cycle.length)) / cycle.length;
      im += (cycle[bin]! * Math.sin((2 * Math.PI * bin) / cycle.length)) / cycle.length;
    }
    all += meanSquare(cycle);
    first += 2 * (re * re + im * im);
  }
  return all > 0 ? Math.max(0, 1 - first / all) : 0;
};

/** Power of the cycles up and down over that across; null where gravity does not show. */
const heaveShareOf = (columns: readonly Float64Array[], cycles: readonly Float64Array[]): number | null => {
  const means = columns.map((column) => column.reduce((sum, value) => sum + value, 0) / column.length);
  const size = Math.hypot(...means);
  if (columns.length < 3 || size < SIGNAL_SETTINGS.leastGravityMps2) return null;
  const up = cycles[0]!.map((_, bin) =>
    cycles.reduce((sum, cycle, axis) => sum + (cycle[bin]! * means[axis]!) / size, 0),
  );
  const heave = meanSquare(up);
  const across = cycles.reduce((sum, cycle) => sum + meanSquare(cycle), 0) - heave;
  return across > 0 ? heave / across : null;
};

/**
 * The rhythm of a short stretch of acceleration or speed, in any mount: the shortest time after which the signal
 * is most like itself. It says that there are strokes to be found, not where they are.
 * @param channel half a minute or so, without gaps
 * @param family null where the craft is not known: any rate that boats show
 * @returns null where nothing comes again
 */
export const rhythmOf = (channel: Channel, family: CraftFamily | null): Rhythm | null => {
  const { gridHz, slowS, firstShare } = RHYTHM_SETTINGS;
  const ranges = family === null ? Object.values(RATE_RANGE_SPM) : [RATE_RANGE_SPM[family]];
  const slowest = Math.min(...ranges.map(([low]) => low));
  const fastest = Math.max(...ranges.map(([, high]) => high));
  const grid = evenGrid(channel.atS, channel.columns, 1 / gridHz, 1);
  if (grid.mask.includes(1)) return null;
  const columns = grid.columns.map((column) => withoutSlow(column, (slowS * gridHz) / 2));
  const [shortest, longest] = [Math.floor((60 / fastest) * gridHz), Math.ceil((60 / slowest) * gridHz)];
  // Two cycles at the least, or there is nothing to compare.
  if (grid.mask.length < 2 * longest) return null;
  const likeness = Float64Array.from({ length: longest + 2 }, (_, lag) =>
    lag < shortest - 1 ? 0 : likenessAt(columns, lag),
  );
  const peaks: number[] = [];
  for (let lag = shortest; lag <= longest; lag++)
    if (likeness[lag]! > likeness[lag - 1]! && likeness[lag]! >= likeness[lag + 1]!) peaks.push(lag);
  const most = Math.max(0, ...peaks.map((lag) => likeness[lag]!));
  const lag = peaks.find((one) => likeness[one]! > 0 && likeness[one]! >= firstShare * most);
  if (lag === undefined) return null;
  // Vertex of the parabola through three points.
  const [before, here, after] = [likeness[lag - 1]!, likeness[lag]!, likeness[lag + 1]!];
  const bend = before - 2 * here + after;
  const period = lag + (bend < 0 ? (before - after) / (2 * bend) : 0);
  const cycles = cyclesOf(columns, period);
  return {
    rateSpm: (60 * gridHz) / period,
    likeness: here,
    sharpness: sharpnessOf(cycles),
    heaveShare: heaveShareOf(grid.columns, cycles),
  };
};
