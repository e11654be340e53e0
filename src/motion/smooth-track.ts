import type { BoatFile } from '../contract/boat.js';
import type { WarningCode } from '../contract/severity.js';
import type { Recording, Warning } from '../recording/index.js';
import type { Belief } from './motion-model.js';
import { positionWhiteSd, receiverSpeedSd, speedRateHz, speedWhiteSd, type Wander } from './noise.js';
import { bridgedGaps, bridgeWarnings, outageWarnings } from './outages.js';
import { outliersOf } from './outliers.js';
import { pathOf } from './path.js';
import { trackOf } from './path-track.js';
import { knotsWith, type Section, sectionsOf, withoutFixes } from './section.js';
import { MOTION_SETTINGS } from './settings.js';
import { smoothSection } from './smoothed.js';
import { speedAgrees } from './speed-agreement.js';
import { speedAhead, speedLag } from './speed-lag.js';
import { boatSpeedWander, NO_SPEED_WANDER, speedWanderOf, USUAL_SPEED_WANDER } from './speed-wander.js';
import { staleFixes } from './stale-fixes.js';
import type { ErrorModel, Track } from './track.js';
import { growthWarnings, wanderGrowth } from './wander-growth.js';

/** What is known beside the log. */
export interface TrackOptions {
  /** Position error of this boat's logger, where a boat file states it. */
  readonly boat: BoatFile | null;
  /** Smooth once only: half the work, for a look at how good the track is. */
  readonly once?: boolean;
  /** The log that the recording is a part of: it shows how the receiver errs. */
  readonly partOf?: Recording;
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
const longer = (best: Section, section: Section): Section => (section.count > best.count ? section : best);

const longestSection = ({ channels: { position, speed } }: Recording): Section =>
  sectionsOf(position!, speed ?? null, staleFixes(position!)).sections.reduce(longer);

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
  const logged = recording.channels.speed ?? null;
  const asLogged = sectionsOf(position, logged, stale);
  const lag = logged === null ? null : speedLag(asLogged.sections.reduce(longer));
  const laidOut = lag === null ? asLogged : sectionsOf(position, speedAhead(logged!, lag.value), stale);
  const main = laidOut.sections.reduce(longer);
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
  if (lag !== null && useSpeed)
    warn(
      'speed-lags',
      `the logged speed lags the positions by ${lag.value.toFixed(1)} s, as a mean over the seconds before does; it is taken for as much earlier`,
    );
  const rateHz = speedSdMps === null ? 0 : speedRateHz(main);
  const fine = rateHz >= MOTION_SETTINGS.fineSpeedHz;
  const receiverSpeedSdMps = fine || speedSdMps === null ? (speedSdMps ?? 0) : receiverSpeedSd(main);
  const before: Belief = {
    wander,
    speedWander:
      speedSdMps === null ? NO_SPEED_WANDER : (boatSpeedWander(options.boat) ?? USUAL_SPEED_WANDER),
    whiteSdM,
    speedSdMps,
    receiverSpeedSdMps,
    speedRateHz: rateHz,
    fine,
  };
  const growths = sections.map((section) => wanderGrowth(section, before));
  const growth = growths[sections.indexOf(sections.reduce(longer))] ?? null;
  const grown =
    growth?.whole === undefined ? wander : { ...wander, sdM: wander.sdM * Math.sqrt(growth.whole) };
  const belief: Belief = {
    ...before,
    whiteSdM: growth === null ? whiteSdM : (positionWhiteSd(main, grown) ?? whiteSdM),
    speedWander:
      speedSdMps === null
        ? NO_SPEED_WANDER
        : (boatSpeedWander(options.boat) ??
          speedWanderOf(options.partOf === undefined ? main : longestSection(options.partOf), {
            ...{ wander: grown, isGiven: wander.source !== 'default', whiteSdM, speedSdMps },
            ...{ receiverSpeedSdMps, speedRateHz: rateHz, isFine: fine },
          })),
  };
  const smoothed = sections.map((section, i) =>
    smoothSection(section, belief, growths[i]?.near ?? null, options.once ?? false),
  );
  warnings.push(...growthWarnings(file, sections, growths, wander));
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
  const bridges = bridgedGaps(position).map(({ fromS, toS }) => ({ fromS, toS }));
  const gaps = { outages: laidOut.outages, bridges };
  warnings.push(...bridgeWarnings(file, bridges), ...outageWarnings(file, laidOut.outages));
  const errorModel: ErrorModel = {
    positionSdM: grown.sdM,
    correlationS: wander.correlationS,
    whiteSdM: belief.whiteSdM,
    speedSdMps,
    speedWander: speedSdMps === null ? null : belief.speedWander,
    source: wander.source,
  };
  return { track: trackOf(pathOf(smoothed), recording.startUnixS, gaps, errorModel), warnings };
};
