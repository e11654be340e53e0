import type { Warning } from '../recording/index.js';
import { formatClock } from '../units/clock-time.js';
import type { Piece } from './piece.js';

const KIND = { stop: 'a stop', slow: 'light work' } as const;

/** Seconds of a piece that its interruptions of a kind take. */
export const interruptedS = (
  { interruptions }: Pick<Piece, 'interruptions'>,
  kind: 'stop' | 'slow',
): number =>
  interruptions.reduce((sum, { fromS, toS, kind: own }) => sum + (own === kind ? toS - fromS : 0), 0);

/** What has to be said of pieces that were interrupted: that they are one, and how to have it otherwise. */
export const interruptionWarnings = (file: string, pieces: readonly Piece[]): Warning[] =>
  pieces.flatMap((piece, i): Warning[] =>
    piece.interruptions.length === 0
      ? []
      : [
          {
            code: 'piece-interrupted',
            file,
            where: piece.interruptions.map(({ fromS }) => `at ${fromS.toFixed(0)} s`).join(', '),
            message: `Piece ${i + 1} is one piece with ${piece.interruptions
              .map(({ kind, fromS, toS }) => `${KIND[kind]} of ${(toS - fromS).toFixed(0)} s`)
              .join(
                ', ',
              )} in it: its time of ${formatClock(piece.toS - piece.fromS, 1)} runs on through, and is ${formatClock(
              piece.toS - piece.fromS - interruptedS(piece, 'stop') - interruptedS(piece, 'slow'),
              1,
            )} without; --longest-stop 0 takes what lies before and after for pieces of their own.`,
          },
        ],
  );
