import type { BoatFile } from '../contract/boat.js';
import type { SheetRow } from '../contract/sheet.js';
import { smoothTrack } from '../motion/index.js';
import type { Placement, Recording } from '../recording/index.js';
import { detectStrokes } from '../strokes/index.js';
import type { Craft } from '../units/craft.js';
import { parseStream, type Stream } from '../units/stream.js';
import { UserError } from '../units/user-error.js';
import { joinLogs } from './join-logs.js';
import type { Outing } from './outing.js';
import { placeClock } from './place-clock.js';
import { resolvePlacement } from './resolve-placement.js';
import { sheetRowOf } from './sheet.js';

/** What was told of an outing beside its logs; each goes before what the sheet, the boat file or a log says. */
export interface OutingAsk {
  readonly craft?: Craft | undefined;
  readonly placement?: Placement | undefined;
  readonly stream?: Stream | undefined;
  /** First sample of the IMU log: a moment on the track's clock or an instant, as a person writes it. */
  readonly imuStart?: string | undefined;
  readonly boat?: BoatFile | undefined;
  /** Rows of the outing sheet; the one for this outing is picked. */
  readonly sheet?: readonly SheetRow[] | undefined;
}

/** The log that names the outing and tells its time: the one with positions, else the first. */
const mainOf = (logs: readonly Recording[]): Recording => {
  const tracks = logs.filter(({ channels }) => channels.position !== undefined);
  if (tracks.length > 1)
    throw new UserError(
      `${tracks.map(({ provenance }) => provenance.file).join(' and ')} both hold positions, so they are two outings: give one track and the IMU log that belongs to it`,
    );
  const main = tracks[0] ?? logs[0];
  if (main === undefined) throw new Error('an outing was opened without a log');
  return main;
};

/**
 * Join the logs of one boat on one clock, smooth its track and find its strokes.
 * @param logs one log, or a track and the IMU log that belongs to it
 * @throws UserError where two logs both hold positions, or what was told does not fit the logs
 */
export const openOuting = (logs: readonly Recording[], ask: OutingAsk = {}): Outing => {
  const main = mainOf(logs);
  const others = logs.filter((log) => log !== main);
  const clocks = others.map((log) => placeClock(main, log, ask.imuStart ?? null));
  const recording = joinLogs(
    main,
    clocks.flatMap(({ clock }, i) => (clock === null ? [] : [{ recording: others[i]!, clock }])),
  );
  const { file } = main.provenance;
  const sheet = sheetRowOf(ask.sheet ?? [], file);
  const boat = ask.boat ?? null;
  const craft = ask.craft ?? sheet?.craft ?? boat?.craft ?? null;
  const stream = ask.stream ?? (sheet?.stream ? parseStream(sheet.stream) : null);
  const { placement, warnings: ofPlacement } = resolvePlacement(
    recording,
    ask.placement ?? null,
    sheet,
    boat,
  );
  const { track, warnings: ofTrack } = smoothTrack(recording, { boat });
  const strokes = detectStrokes(recording, track, { craft, placement, boat });
  return {
    file,
    files: logs.map(({ provenance }) => provenance.file),
    recording,
    craft,
    placement,
    sheet,
    boat,
    stream,
    track,
    strokes,
    warnings: [
      ...recording.warnings,
      ...clocks.flatMap(({ warnings }) => warnings),
      ...ofPlacement,
      ...ofTrack,
      ...strokes.warnings,
    ],
  };
};
