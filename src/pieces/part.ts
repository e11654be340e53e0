import { lengthBetween } from '../motion/index.js';
import type { Interval } from '../motion/track.js';
import { coveredDistance, type Outing } from '../outing/index.js';
import type { Estimate } from '../units/estimate.js';
import { LogMisfit, UserError } from '../units/user-error.js';
import type { Piece } from './piece.js';

/** How a piece is cut into parts. */
export type PartAsk =
  | { readonly by: 'distance' | 'time'; readonly count: number }
  | { readonly by: 'metres'; readonly everyM: number };

/** Five equal distances, unless asked otherwise. */
export const USUAL_PARTS: PartAsk = Object.freeze({ by: 'distance', count: 5 });

/** Parts beyond this number are a slip of the pen: half-metre parts of a race. */
const MOST_PARTS = 1000;

/** One part of a piece: between two borders on its way. */
export interface Part extends Interval {
  /** Metres from the start of the piece; null without a track. */
  readonly fromM: number | null;
  readonly toM: number | null;
  readonly durationSdS: number | null;
  readonly distanceSdM: number | null;
}

/** A border: its moment, its place, and the sd of the time since the border before. */
interface Border {
  readonly atS: number;
  readonly alongM: number | null;
  readonly sinceSdS: number | null;
}

const isCount = (value: number): boolean => Number.isInteger(value) && value >= 1 && value <= MOST_PARTS;

const checked = (ask: PartAsk): PartAsk => {
  if (ask.by === 'metres' ? ask.everyM > 0 && Number.isFinite(ask.everyM) : isCount(ask.count)) return ask;
  throw new UserError(
    ask.by === 'metres'
      ? `parts every ${ask.everyM} m cannot be made: give a length above 0`
      : `${ask.count} parts cannot be made: give a whole number from 1 to ${MOST_PARTS}`,
  );
};

/** Length of a piece over ground; exact where it was asked for. */
export const lengthOf = (outing: Outing, piece: Piece): Estimate | null =>
  piece.exactM === null ? coveredDistance(outing.track, piece) : { value: piece.exactM, sd: 0 };

const alongAt = (outing: Outing, piece: Piece, atS: number): number | null =>
  lengthBetween(outing.track, piece.fromS, atS);

const timeBorders = (outing: Outing, piece: Piece, count: number): Border[] =>
  Array.from({ length: count + 1 }, (_, i): Border => {
    const atS = piece.fromS + ((piece.toS - piece.fromS) * i) / count;
    return { atS, alongM: i === 0 ? 0 : alongAt(outing, piece, atS), sinceSdS: null };
  });

/** Each border is sought from the one before, so that its sd is that of the part's own time. */
const distanceBorders = (outing: Outing, piece: Piece, alongM: readonly number[]): Border[] => {
  const borders: Border[] = [{ atS: piece.fromS, alongM: 0, sinceSdS: null }];
  for (const along of alongM) {
    const last = borders.at(-1)!;
    const end = outing.track?.timeAfter(last.atS, along - last.alongM!);
    if (!end) return borders;
    borders.push({ atS: end.atS, alongM: along, sinceSdS: end.durationSdS });
  }
  return borders;
};

const cuts = (lengthM: number, ask: PartAsk): number[] => {
  if (ask.by !== 'metres')
    return Array.from({ length: ask.count }, (_, i) => (lengthM * (i + 1)) / ask.count);
  const count = Math.ceil(lengthM / ask.everyM - 1e-9);
  if (count > MOST_PARTS)
    throw new LogMisfit(
      `parts every ${ask.everyM} m would be ${count}: give a length that makes at most ${MOST_PARTS}`,
    );
  return Array.from({ length: count }, (_, i) => Math.min(lengthM, ask.everyM * (i + 1)));
};

/**
 * The parts of a piece, end to end, their borders interpolated on the smoothed track. By distance the last
 * border is the end of the piece itself; without a track only parts by time can be made.
 * @returns no parts where the log cannot carry them
 * @throws UserError where the parts asked for cannot be made of any piece
 */
export const partsOf = (outing: Outing, piece: Piece, ask: PartAsk = USUAL_PARTS): readonly Part[] => {
  const how = checked(ask);
  const length = lengthOf(outing, piece);
  if (how.by !== 'time' && (length === null || length.value <= 0)) return [];
  const borders =
    how.by === 'time'
      ? timeBorders(outing, piece, how.count)
      : distanceBorders(outing, piece, cuts(length!.value, how));
  return borders.slice(1).map((border, i): Part => {
    const before = borders[i]!;
    const last = i === borders.length - 2;
    const toS = last ? piece.toS : border.atS;
    const edgeSdS = Math.hypot(i === 0 ? piece.startSdS : 0, last ? (piece.endSdS ?? 0) : 0);
    return {
      fromS: before.atS,
      toS,
      fromM: before.alongM,
      toM: border.alongM,
      durationSdS: border.sinceSdS === null ? edgeSdS : Math.hypot(border.sinceSdS, edgeSdS),
      distanceSdM: how.by === 'time' ? (outing.track?.distanceM(before.atS, toS)?.sd ?? null) : 0,
    };
  });
};
