import type { Interval } from '../motion/index.js';
import {
  type BestAsk,
  bestStretches,
  bestWarnings,
  type Outing,
  type RowingInterval,
  rowingIntervalsOf,
} from '../outing/index.js';
import type { Warning } from '../recording/index.js';
import type { Found } from './find-pieces.js';
import type { Piece } from './piece.js';

/** Rowing between two moments: what lies across one is cut there. */
const cut = (all: readonly RowingInterval[], { fromS, toS }: Interval): readonly RowingInterval[] =>
  all
    .map((rowing) => ({ ...rowing, fromS: Math.max(fromS, rowing.fromS), toS: Math.min(toS, rowing.toS) }))
    .filter((rowing) => rowing.toS > rowing.fromS);

/**
 * Best stretches as pieces, so that they can be cut into parts like any other.
 * @param within only those between these moments; null for all
 */
export const bestPieces = (outing: Outing, asks: readonly BestAsk[], within: Interval | null): Found => {
  const all = rowingIntervalsOf(outing);
  const rowingIntervals = all === null || within === null ? all : cut(all, within);
  const bests =
    outing.track === null || rowingIntervals === null
      ? []
      : bestStretches(outing.track, rowingIntervals, asks);
  const missing = asks.filter((ask) => !bests.some((best) => best.ask === ask));
  const pieces = bests.map(
    (best): Piece => ({
      fromS: best.fromS,
      toS: best.toS,
      start: 'rolling',
      interruptions: [],
      outcome: 'complete',
      strokesFromS: best.fromS,
      exactM: 'metres' in best.ask ? best.ask.metres : null,
      exactS: 'seconds' in best.ask ? best.ask.seconds : null,
      startSdS: 0,
      endSdS: null,
    }),
  );
  return {
    pieces,
    warnings: [
      ...bestWarnings(outing, bests),
      ...missing.map(
        (ask): Warning => ({
          code: 'no-best-stretch',
          file: outing.file,
          where: null,
          message: `No unbroken work in this log is as long as ${'metres' in ask ? `${ask.metres} m` : `${ask.seconds} s`}, so it has no best stretch of that length.`,
        }),
      ),
    ],
  };
};
