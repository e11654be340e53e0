import type { PieceRow } from '../contract/pieces.js';
import type { Interval } from '../motion/track.js';
import type { Interruption } from './interrupted.js';
import type { Part } from './part.js';

/** How pieces are asked for. */
export type PieceAsk =
  /** Unbroken work between rests or light rowing, found unaided. */
  | { readonly kind: 'unaided' }
  /** Every piece of so many metres. */
  | { readonly kind: 'distance'; readonly metres: number }
  /** Every piece of so many seconds. */
  | { readonly kind: 'time'; readonly seconds: number }
  /** One piece between two moments on the outing's clock; null for its beginning or end. */
  | { readonly kind: 'between'; readonly fromS: number | null; readonly toS: number | null }
  /** The laps or segments that the log itself marks. */
  | { readonly kind: 'laps' };

/** A piece before its figures: where it lies, and how it began and ended. */
export interface Piece extends Interval {
  readonly start: 'standing' | 'rolling';
  /** Null where no length was asked for. */
  readonly outcome: PieceRow['outcome'];
  /** Stops and slow stretches within it, in time order. */
  readonly interruptions: readonly Interruption[];
  /** Strokes count from here: `fromS`, or the first catch mark where that lies a moment before the movement. */
  readonly strokesFromS: number;
  /** Metres asked for and reached; null where the distance is measured. */
  readonly exactM: number | null;
  /** Seconds asked for and rowed; null where the time is measured. */
  readonly exactS: number | null;
  /** sd of `fromS` as the moment at which the piece began, s. */
  readonly startSdS: number;
  /** sd of `toS` where it is a moment found in strokes, on a line or given; null where it follows from the start. */
  readonly endSdS: number | null;
  /** Direction along a course, where the piece is a pass along one. */
  readonly courseWay?: 'with' | 'against';
  /** Its parts, where they are reported with it: the sections of a course. */
  readonly legs?: readonly Part[];
}
