import type { Positions } from '../../contract/positions.js';
import type { Cell } from '../view.js';

/** One thing that a map shows: a stretch of a track, or a place where only one moment of it counts. */
export interface MapShape {
  readonly name: string;
  readonly kind: 'outing' | 'piece' | 'part' | 'crew' | 'mark';
  /** Unbroken stretches of the track. */
  readonly positions: Positions;
  /** The figures of the result, with their standard deviations. */
  readonly figures: Readonly<Record<string, Cell>>;
}

/** The places of a track that are wanted, in unbroken stretches. */
export const positionsWhere = (
  positions: Positions,
  isWanted: (position: Positions[number][number]) => boolean,
): Positions => positions.map((part) => part.filter(isWanted)).filter((part) => part.length > 0);

/** A moment that is a sum of two figures of a result may be so far off, s: each has three decimals. */
export const ROUNDING_S = 0.002;

/** What of a track lies between two moments, both included. */
export const positionsBetween = (positions: Positions, fromS: number, toS: number): Positions =>
  positionsWhere(positions, ({ at_s }) => at_s >= fromS - ROUNDING_S && at_s <= toS + ROUNDING_S);
