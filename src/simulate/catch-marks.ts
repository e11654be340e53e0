import { butterworth, parabolaVertex, twoPassCutoff, zeroPhase } from '../signal/index.js';
import type { Rowed } from './rowed.js';

/** How the true mark is taken from the true surge; the definition of a catch mark. */
export const MARK_SETTINGS = Object.freeze({
  lowPassHz: 5,
  /** The minimum is sought from this share of the cycle before the catch, and no further than `mostS`, … */
  before: 0.15,
  mostBeforeS: 0.25,
  /** … to this share of the drive after it. */
  after: 0.45,
});

/**
 * Catch mark of every stroke, s: the minimum of the zero-phase surge, low-passed at 5 Hz, around the catch; from
 * rest, when the crew first moves.
 */
export const catchMarks = ({ grid, strokes }: Rowed): number[] => {
  const { lowPassHz, before, mostBeforeS, after } = MARK_SETTINGS;
  const smooth = zeroPhase(
    grid.surgeMps2,
    butterworth(2, twoPassCutoff(2 * lowPassHz * grid.stepS)),
    Math.round(1 / grid.stepS),
  );
  return strokes.map((stroke) => {
    if (stroke.fromRest) return stroke.atS;
    const reachS = Math.min(mostBeforeS, before * stroke.periodS);
    const first = Math.max(1, Math.ceil((stroke.atS - reachS) / grid.stepS));
    const last = Math.min(grid.count - 2, Math.floor((stroke.atS + after * stroke.driveS) / grid.stepS));
    let lowest = first;
    for (let i = first + 1; i <= last; i++) if (smooth[i]! < smooth[lowest]!) lowest = i;
    const { offset } = parabolaVertex(smooth[lowest - 1]!, smooth[lowest]!, smooth[lowest + 1]!);
    return (lowest + offset) * grid.stepS;
  });
};
