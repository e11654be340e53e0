import type { OpeningRow } from '../contract/piece-detail.js';
import { type Outing, speedWithin } from '../outing/index.js';
import type { Piece } from './piece.js';
import type { PieceStroke } from './piece-strokes.js';

/** What the opening of a piece is held against. */
export const OPENING_SETTINGS = Object.freeze({
  /** Race speed is the mean over this share of the time in the middle of the piece; 0.4 to 0.6. */
  middleShare: 0.5,
  /** Up to race speed: a stroke at this share of it; 0.97 to 1: one stroke's speed is known to about 1 %. */
  atSpeedShare: 0.98,
  /** Length that openings are timed over, m. */
  metres: 100,
});

/** Mean speed over the middle half of the time of a piece, m/s. */
const raceSpeedMps = (outing: Outing, { fromS, toS }: Piece): number | null => {
  const edgeS = ((toS - fromS) * (1 - OPENING_SETTINGS.middleShare)) / 2;
  return speedWithin(outing, { fromS: fromS + edgeS, toS: toS - edgeS }).speedMps;
};

const isKnown = (outing: Outing, piece: Piece, toS: number): boolean =>
  toS <= piece.toS && speedWithin(outing, { fromS: piece.fromS, toS }).distance !== null;

/**
 * How a piece got going: its first strokes, the time to 100 m and the time to race speed.
 * @param number of the piece within the log, from 1
 * @param strokes all strokes of the piece
 * @param count strokes to tell
 */
export const openingRow = (
  outing: Outing,
  piece: Piece,
  number: number,
  strokes: readonly PieceStroke[],
  count: number,
): OpeningRow => {
  const { metres, atSpeedShare } = OPENING_SETTINGS;
  const race = raceSpeedMps(outing, piece);
  const reached = outing.track?.timeAfter(piece.fromS, metres) ?? null;
  const timed = reached !== null && isKnown(outing, piece, reached.atS) ? reached : null;
  const upToSpeed = strokes.find(
    ({ speed_mps }) => race !== null && speed_mps !== null && speed_mps >= atSpeedShare * race,
  );
  return {
    file: outing.file,
    piece: number,
    start: piece.start,
    race_speed_mps: race,
    time_to_100m_s: timed === null ? null : timed.atS - piece.fromS,
    time_to_100m_sd_s: timed === null ? null : Math.hypot(timed.durationSdS, piece.startSdS),
    time_to_race_speed_s: upToSpeed?.cumulative_s ?? null,
    strokes: strokes.slice(0, count),
  };
};
