import { type Interval, lengthBetween } from '../motion/index.js';
import { type Outing, strokesWithin } from '../outing/index.js';
import type { Warning } from '../recording/index.js';
import type { Piece } from './piece.js';

/** Where strokes are missed. */
export const DROPOUT_SETTINGS = Object.freeze({
  /** Strokes farther apart than this leave a hole, s; 6 to 10: a stroke at 10 spm lasts 6. */
  longestS: 8,
  /** … if the boat kept this share of its mean speed all the while; 0.5 to 0.7: left to run it would not. */
  underWayShare: 0.6,
  /** Getting under way and the end of the stretch are not looked at, s; 3 to 6. */
  edgeS: 4,
});

/** Stretches of a piece or part in which the boat was under way and no strokes were found. */
export const strokeDropouts = (outing: Outing, { fromS, toS }: Interval): readonly Interval[] => {
  const { track } = outing;
  const lengthM = lengthBetween(track, fromS, toS);
  if (outing.strokes.source === null || track === null || lengthM === null) return [];
  const { longestS, underWayShare, edgeS } = DROPOUT_SETTINGS;
  const leastMps = (underWayShare * lengthM) / (toS - fromS);
  const marks = [fromS, ...strokesWithin(outing, { fromS, toS }).map(({ atS }) => atS), toS];
  return marks
    .slice(1)
    .map((to, i): Interval => ({ fromS: marks[i]!, toS: to }))
    .filter((gap) => {
      if (gap.toS - gap.fromS <= longestS) return false;
      for (let atS = gap.fromS + edgeS; atS <= gap.toS - edgeS; atS += 1)
        if ((track.speedAt(atS) ?? 0) < leastMps) return false;
      return true;
    });
};

/** Dropouts that no interruption of the piece explains: a boat runs on for some seconds. */
export const unexplained = (
  dropouts: readonly Interval[],
  { interruptions }: Pick<Piece, 'interruptions'>,
): readonly Interval[] =>
  dropouts.filter((gap) => !interruptions.some(({ fromS, toS }) => fromS < gap.toS && toS > gap.fromS));

/** What has to be said of strokes that were not found in pieces. */
export const dropoutWarnings = (outing: Outing, pieces: readonly Piece[]): Warning[] =>
  pieces.flatMap((piece, i) =>
    unexplained(strokeDropouts(outing, piece), piece).map(
      (hole): Warning => ({
        code: 'strokes-missing',
        file: outing.file,
        where: `at ${hole.fromS.toFixed(1)} s`,
        message: `No strokes were found for ${(hole.toS - hole.fromS).toFixed(0)} s of piece ${i + 1} although the boat was under way, so its strokes are not counted there; its rate is that of the strokes found.`,
      }),
    ),
  );
