import { smoothTrack } from '../motion/index.js';
import type { Recording } from '../recording/index.js';
import { detectStrokes } from '../strokes/index.js';
import { boatWarnings } from './boat-warnings.js';
import { distinctWarnings } from './distinct-warnings.js';
import { type JoinedOuting, joinedOuting, type OutingAsk } from './joined-outing.js';
import type { Outing } from './outing.js';

/** An outing whose track is smoothed and whose strokes are found. */
export const wholeOuting = (joined: JoinedOuting): Outing => {
  const { recording, craft, placement, boat, stream, file } = joined;
  const { track, warnings: ofTrack } = smoothTrack(recording, { boat });
  const strokes = detectStrokes(recording, track, { craft, placement, boat, stream });
  return {
    ...joined,
    track,
    strokes,
    warnings: distinctWarnings([
      ...joined.warnings,
      ...ofTrack,
      ...strokes.warnings,
      ...(boat === null ? [] : boatWarnings(boat, strokes, track, file)),
    ]),
  };
};

/**
 * Join the logs of one boat on one clock, smooth its track and find its strokes.
 * @param logs a track in one or several parts, and the IMU log that belongs to it, or one log alone
 * @throws UserError where logs with positions are of different outings, or what was given does not fit the logs
 */
export const openOuting = (logs: readonly Recording[], ask: OutingAsk = {}): Outing =>
  wholeOuting(joinedOuting(logs, ask));
