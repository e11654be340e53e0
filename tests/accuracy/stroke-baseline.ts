import type { Recording } from '../../src/recording/index.js';
import { butterworth, evenGrid, median, peaks, zeroPhase } from '../../src/signal/index.js';

/**
 * The plain way to find strokes, for comparison: peaks of the true surge axis, low-passed at 3 Hz (order 2,
 * zero-phase), prominence 1.2 sd, spacing 60/50 s. It is given what it cannot know: the sensor's x axis lies along
 * the hull, and its marks are shifted by their own median distance to the true ones.
 */
export const baselineStrokes = (recording: Recording, trueMarksS: readonly number[]): number[] => {
  const { atS, columns } = recording.channels.acceleration!;
  const rateHz = 50;
  const grid = evenGrid(atS, [columns[0]!], 1 / rateHz, 1);
  const smooth = zeroPhase(grid.columns[0]!, butterworth(2, 3 / (rateHz / 2)));
  const mean = smooth.reduce((sum, value) => sum + value, 0) / smooth.length;
  const sd = Math.sqrt(smooth.reduce((sum, value) => sum + (value - mean) ** 2, 0) / smooth.length);
  const found = peaks(
    smooth.map((value) => -value),
    { prominence: 1.2 * sd, distance: Math.ceil((60 / 50) * rateHz) },
  ).map(({ index }) => grid.start + index * grid.step);
  const near = trueMarksS.flatMap((mark) => {
    const apart = found.map((at) => at - mark).filter((gap) => Math.abs(gap) < 0.5);
    return apart.length > 0 ? [apart.reduce((p, q) => (Math.abs(q) < Math.abs(p) ? q : p))] : [];
  });
  const bias = near.length > 0 ? median(near) : 0;
  return found.map((at) => at - bias);
};
