import type { BoatFile } from '../contract/boat.js';
import type { WarningCode } from '../contract/severity.js';
import type { Recording, Warning } from '../recording/index.js';
import type { Belief } from './motion-model.js';
import { positionWhiteSd, receiverSpeedSd, speedRateHz, speedWhiteSd, type Wander } from './noise.js';
import { outageWarnings } from './outages.js';
import { outliersOf } from './outliers.js';
import { pathOf } from './path.js';
import { trackOf } from './path-track.js';
import { knotsWith, type Section, sectionsOf, withoutFixes } from './section.js';
import { MOTION_SETTINGS } from './settings.js';
import { smoothSection } from './smoothed.js';
import { speedAgrees } from './speed-agreement.js';
import { NO_SPEED_WANDER, speedWanderOf, toldSpeedWander } from './speed-wander.js';
import { staleFixes } from './stale-fixes.js';
import type { ErrorModel, Track } from './track.js';

/** What is known beside the log. */
export interface TrackOptions {
  /** Position error of this boat's logger, where a boat file states it. */
  readonly boat: BoatFile | null;
  /** Smooth once only: half the work, for a look at how good the track is. */
  readonly once?: boolean;
}

/** A track, or null with the reason in the warnings. */
export interface TrackResult {
  readonly track: Track | null;
  readonly warnings: readonly Warning[];
}

const wanderOf = (
  recording: Recording,
  boat: BoatFile | null,
): Wander & { readonly source: ErrorModel['source'] } => {
  const { defaultPositionSdM, defaultCorrelationS } = MOTION_SETTINGS;
  const correlationS = boat?.correlation_s ?? defaultCorrelationS;
  if (boat?.position_sd_m !== undefined)
    return { sdM: boat.position_sd_m, correlationS, source: 'boat file' };
  if (recording.statedPositionSdM !== null)
    return { sdM: recording.statedPositionSdM, correlationS, source: 'log' };
  return {
    sdM: defaultPositionSdM,
    correlationS,
    source: boat?.correlation_s === undefined ? 'default' : 'boat file',
  };
};

/** The longest section speaks for the log: its noise is the receiver's. */
const longest = (sections: readonly Section[]): Section =>
  sections.reduce((best, section) => (section.count > best.count ? section : best));

/**
 * Where a boat was, smoothed. Positions carry a wandering error as states of the smoother beside the hull's own;
 * its size comes from the boat file, the log, or a default, in this order. Logged speed is used where it agrees
 * with the positions.
 * @returns no track where the log holds no usable position; the warnings say why
 */
export const smoothTrack = (recording: Recording, options: TrackOptions): TrackResult => {
  const { file } = recording.provenance;
  const warnings: Warning[] = [];
  const warn = (code: WarningCode, message: string, where: string | null = null) =>
    warnings.push({ code, file, where, message });
  const position = recording.channels.position;
  if (position === undefined || position.atS.length < MOTION_SETTINGS.fewestFixes) {
    // What is work on land by its having no positions has been said to be that.
    if (position !== undefined || !recording.land)
      warn(
        'no-track',
        position === undefined
          ? 'the log holds no positions, so distance, place and course are not known'
          : `the log holds only ${position.atS.length === 1 ? '1 position' : `${position.atS.length} positions`}, too few for a track`,
      );
    return { track: null, warnings };
  }

  const wander = wanderOf(recording, options.boat);
  const stale = staleFixes(position);
  const laidOut = sectionsOf(position, recording.channels.speed ?? null, stale);
  const main = longest(laidOut.sections);
  const whiteSdM = positionWhiteSd(main, wander) ?? wander.sdM / 2;

  let outlierCount = stale === null ? 0 : knotsWith(stale).length;
  const sections = laidOut.sections.map((section) => {
    const taken = outliersOf(section, whiteSdM);
    const count = knotsWith(taken).length;
    outlierCount += count;
    return count === 0 ? section : withoutFixes(section, taken);
  });

  const loggedSdMps = speedWhiteSd(main);
  const agrees = loggedSdMps === null ? null : speedAgrees(sections, wander);
  const useSpeed = loggedSdMps !== null && (agrees === null || agrees.yes);
  if (agrees !== null && !agrees.yes)
    warn(
      'speed-disagrees',
      `the logged speed makes ${agrees.ratio.toFixed(2)} of the distance that the positions make, so it is not used; check its unit`,
    );
  const speedSdMps = useSpeed ? loggedSdMps : null;
  const rateHz = speedSdMps === null ? 0 : speedRateHz(main);
  const fine = rateHz >= MOTION_SETTINGS.fineSpeedHz;
  const receiverSpeedSdMps = fine || speedSdMps === null ? (speedSdMps ?? 0) : receiverSpeedSd(main);
  const belief: Belief = {
    wander,
    speedWander:
      speedSdMps === null
        ? NO_SPEED_WANDER
        : (toldSpeedWander(options.boat) ??
          speedWanderOf(main, {
            wander,
            isTold: wander.source !== 'default',
            whiteSdM,
            speedSdMps,
            receiverSpeedSdMps,
            speedRateHz: rateHz,
          })),
    whiteSdM,
    speedSdMps,
    receiverSpeedSdMps,
    speedRateHz: rateHz,
    fine,
  };
  const smoothed = sections.map((section) => smoothSection(section, belief, options.once ?? false));
  outlierCount += smoothed.reduce((sum, { pass }) => sum + pass.gatedFixes, 0);
  if (outlierCount > 0)
    warn(
      'position-outliers',
      outlierCount === 1
        ? '1 position lies far off the track and was left out'
        : `${outlierCount} positions lie far off the track and were left out`,
    );
  for (const atS of smoothed.flatMap(({ pass }) => pass.jumpsS))
    warn(
      'position-jump',
      'the position jumps and stays there; distance across the jump is uncertain',
      `at ${atS.toFixed(1)} s`,
    );
  warnings.push(...outageWarnings(file, laidOut.outages));
  const errorModel: ErrorModel = {
    positionSdM: wander.sdM,
    correlationS: wander.correlationS,
    whiteSdM,
    speedSdMps,
    speedWander: speedSdMps === null ? null : belief.speedWander,
    source: wander.source,
  };
  return { track: trackOf(pathOf(smoothed), recording.startUnixS, laidOut.outages, errorModel), warnings };
};
