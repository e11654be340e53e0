import type { BoatFile } from '../contract/boat.js';
import type { SheetRow } from '../contract/sheet.js';
import type { Placement, Recording, Warning } from '../recording/index.js';
import type { Craft } from '../units/craft.js';
import { parseStream, type Stream } from '../units/stream.js';
import { distinctWarnings } from './distinct-warnings.js';
import { joinLogs } from './join-logs.js';
import { mainTrack } from './main-track.js';
import type { Outing } from './outing.js';
import { placeClock } from './place-clock.js';
import { resolvePlacement } from './resolve-placement.js';
import { sheetRowOf } from './sheet-row.js';

/** What was given of an outing beside its logs; each goes before what the sheet, the boat file or a log says. */
export interface OutingAsk {
  readonly craft?: Craft | undefined;
  readonly placement?: Placement | undefined;
  readonly stream?: Stream | undefined;
  /** First sample of the IMU log: a moment on the track's clock or an instant, as a person writes it. */
  readonly imuStart?: string | undefined;
  readonly boat?: BoatFile | undefined;
  /** Used where nothing else names a craft or a placement. */
  readonly usual?: Pick<BoatFile, 'craft' | 'placement'> | undefined;
  /** Rows of the outing sheet; the one for this outing is picked. */
  readonly sheet?: readonly SheetRow[] | undefined;
  /** What has to be said of the files beside the logs. */
  readonly said?: readonly Warning[] | undefined;
}

/** An outing before its track is smoothed and its strokes are found. */
export type JoinedOuting = Omit<Outing, 'track' | 'strokes'>;

/**
 * Join the logs of one boat on one clock.
 * @param logs a track in one or several parts, and the IMU log that belongs to it, or one log alone
 * @throws UserError where logs with positions are of different outings, or what was given does not fit the logs
 */
export const joinedOuting = (logs: readonly Recording[], ask: OutingAsk = {}): JoinedOuting => {
  const { main, others, warnings: ofParts } = mainTrack(logs);
  const clocks = others.map((log) => placeClock(main, log, ask.imuStart ?? null));
  const recording = joinLogs(
    main,
    clocks.flatMap(({ clock }, i) => (clock === null ? [] : [{ recording: others[i]!, clock }])),
  );
  const { file } = main.provenance;
  const sheet = sheetRowOf(ask.sheet ?? [], file);
  const boat = ask.boat ?? null;
  const { placement, warnings: ofPlacement } = resolvePlacement(recording, ask.placement ?? null, sheet, {
    ...ask.usual,
    ...boat,
  });
  return {
    file,
    files: logs.map(({ provenance }) => provenance.file),
    recording,
    craft: ask.craft ?? sheet?.craft ?? boat?.craft ?? ask.usual?.craft ?? null,
    placement,
    sheet,
    boat,
    stream: ask.stream ?? (sheet?.stream ? parseStream(sheet.stream) : null),
    warnings: distinctWarnings([
      ...(ask.said ?? []),
      ...recording.warnings,
      ...ofParts,
      ...clocks.flatMap(({ warnings }) => warnings),
      ...ofPlacement,
    ]),
  };
};
