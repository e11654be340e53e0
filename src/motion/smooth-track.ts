import type { BoatFile } from '../contract/boat.js';
import { bearingOf, geodesicBetween } from '../geodesy/index.js';
import type { Recording, Warning } from '../recording/index.js';
import { firstAtLeast } from '../units/first-at-least.js';
import { crossingFinder } from './crossings.js';
import { distanceVariance } from './distance-variance.js';
import type { Belief } from './motion-model.js';
import { positionWhiteSd, receiverSpeedSd, speedRateHz, speedWhiteSd, type Wander } from './noise.js';
import { outageWarnings } from './outages.js';
import { outliersOf } from './outliers.js';
import { lastAtMost, type Moment, momentOfKnot, type Path, pathOf } from './path.js';
import { knotsWith, type Section, sectionsOf, withoutFixes } from './section.js';
import { MOTION_SETTINGS } from './settings.js';
import { type Smoothed, smoothSection } from './smoothed.js';
import { speedAgrees } from './speed-agreement.js';
import type { ErrorModel, Interval, Place, Track } from './track.js';

/** What is known beside the log. */
export interface TrackOptions {
  /** Position error of this boat's logger, where a boat file states it. */
  readonly boat: BoatFile | null;
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

const furthest = (path: Path): number => {
  const first = path.parts[0];
  if (first === undefined) return 0;
  const home = path.placeAt(momentOfKnot(first, 0));
  let farthestM = 0;
  for (const part of path.parts) {
    const { section } = part.smoothed;
    let lastAt = Number.NEGATIVE_INFINITY;
    for (let k = 0; k < section.count; k++) {
      if (part.way.still[k] || section.atS[k]! - lastAt < 1) continue;
      lastAt = section.atS[k]!;
      farthestM = Math.max(farthestM, geodesicBetween(home, path.placeAt(momentOfKnot(part, k))).distanceM);
    }
  }
  return farthestM;
};

/**
 * Where a boat was, smoothed. Positions carry a wandering error as states of the smoother beside the hull's own;
 * its size comes from the boat file, the log, or a default, in this order. Logged speed is used where it agrees
 * with the positions.
 * @returns no track where the log holds no usable position; the warnings say why
 */
export const smoothTrack = (recording: Recording, options: TrackOptions): TrackResult => {
  const { file } = recording.provenance;
  const warnings: Warning[] = [];
  const warn = (code: string, message: string, where: string | null = null) =>
    warnings.push({ code, file, where, message });
  const position = recording.channels.position;
  if (position === undefined || position.atS.length < MOTION_SETTINGS.fewestFixes) {
    warn(
      'no-track',
      position === undefined
        ? 'the log holds no positions, so distance, place and course are not known'
        : `the log holds only ${position.atS.length === 1 ? '1 position' : `${position.atS.length} positions`}, too few for a track`,
    );
    return { track: null, warnings };
  }

  const wander = wanderOf(recording, options.boat);
  const laidOut = sectionsOf(position, recording.channels.speed ?? null);
  const main = longest(laidOut.sections);
  const whiteSdM = positionWhiteSd(main, wander) ?? wander.sdM / 2;

  let outlierCount = 0;
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
  const belief: Belief = {
    wander,
    whiteSdM,
    speedSdMps,
    receiverSpeedSdMps: fine || speedSdMps === null ? (speedSdMps ?? 0) : receiverSpeedSd(main),
    speedRateHz: rateHz,
    fine,
  };
  const smoothed = sections.map((section) => smoothSection(section, belief));
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
    source: wander.source,
  };
  return { track: trackOf(recording, smoothed, laidOut.outages, errorModel), warnings };
};

const trackOf = (
  recording: Recording,
  smoothed: readonly Smoothed[],
  outages: readonly Interval[],
  errorModel: ErrorModel,
): Track => {
  const path = pathOf(smoothed);
  const { atS, alongM } = path;
  const [trackFromS, trackToS] = [atS[0]!, atS[atS.length - 1]!];
  const at = <Value>(time: number, read: (moment: Moment) => Value): Value | null => {
    const moment = path.momentAt(time);
    return moment === null ? null : read(moment);
  };
  const alongAt = (time: number): number | null => {
    if (time < trackFromS || time > trackToS) return null;
    return at(time, path.alongAt) ?? alongM[lastAtMost(atS, time)]!;
  };
  const crossings = crossingFinder(path);
  const isStill = ({ part, knot }: Moment) => part.way.still[knot] === 1;
  const headingOf = (moment: Moment): number | null => {
    if (isStill(moment) || path.speedAt(moment) < MOTION_SETTINGS.headingMps) return null;
    const [eastM, northM] = path.courseAt(moment);
    return bearingOf({ eastM, northM });
  };
  const distanceM: Track['distanceM'] = (fromS, toS) => {
    const [from, to] = [alongAt(fromS), alongAt(toS)];
    if (from === null || to === null || toS < fromS) return null;
    return { value: to - from, sd: Math.sqrt(distanceVariance(path, fromS, toS)) };
  };
  const timeAfter: Track['timeAfter'] = (fromS, metres) => {
    const from = alongAt(fromS);
    if (from === null || metres < 0) return null;
    const goal = from + metres;
    const after = firstAtLeast(alongM, goal);
    if (after === alongM.length) return null;
    let [low, high] = [Math.max(fromS, atS[Math.max(0, after - 1)]!), Math.max(fromS, atS[after]!)];
    if (outages.some((outage) => outage.fromS >= fromS && outage.fromS < high)) return null;
    for (let i = 0; i < BISECTIONS; i++) {
      const middle = (low + high) / 2;
      if (alongAt(middle)! < goal) low = middle;
      else high = middle;
    }
    const speedMps = Math.max(at(high, path.speedAt) ?? 0, MOTION_SETTINGS.headingMps);
    return { atS: high, durationSdS: Math.sqrt(distanceVariance(path, fromS, high)) / speedMps };
  };
  let furthestM: number | null = null;
  return {
    startUnixS: recording.startUnixS,
    fromS: trackFromS,
    toS: trackToS,
    errorModel,
    atS,
    speedMps: path.speedMps,
    alongM,
    stationary: path.stationary,
    outages,
    speedAt: (time) => at(time, path.speedAt),
    headingAt: (time) => at(time, headingOf),
    placeAt: (time): Place | null => at(time, path.placeAt),
    alongAt,
    distanceM,
    timeAfter,
    crossings: crossings.crossings,
    crossingDurationSdS: crossings.durationSdS,
    get furthestM() {
      furthestM ??= furthest(path);
      return furthestM;
    },
  };
};

const BISECTIONS = 40; // a step of 1 s to 1e-12 s
