import { bearingOf } from '../geodesy/index.js';
import { firstAtLeast } from '../units/first-at-least.js';
import { lastAtMost } from '../units/last-at-most.js';
import { bisected } from './bisected.js';
import { crossingFinder } from './crossings.js';
import { distanceVariance } from './distance-variance.js';
import { furthestM } from './furthest.js';
import { alongOf, courseOf, momentAt, type Path, placeOf, speedOf } from './path.js';
import { MOTION_SETTINGS } from './settings.js';
import type { ErrorModel, Interval, Place, Track } from './track.js';

const speedAt = (path: Path, atS: number): number | null => {
  const moment = momentAt(path, atS);
  return moment === null ? null : speedOf(path, moment);
};

const placeAt = (path: Path, atS: number): Place | null => {
  const moment = momentAt(path, atS);
  return moment === null ? null : placeOf(moment);
};

const headingAt = (path: Path, atS: number): number | null => {
  const moment = momentAt(path, atS);
  if (moment === null || moment.part.steps.still[moment.knot] === 1) return null;
  return speedOf(path, moment) < MOTION_SETTINGS.headingMps ? null : bearingOf(courseOf(moment));
};

/** Length of the path up to a time, m: in an outage, up to its beginning. */
const alongAt = (path: Path, atS: number): number | null => {
  const times = path.atS;
  if (atS < times[0]! || atS > times[times.length - 1]!) return null;
  const moment = momentAt(path, atS);
  return moment === null ? path.alongM[lastAtMost(times, atS)]! : alongOf(path, moment);
};

const distanceBetween = (path: Path, fromS: number, toS: number): ReturnType<Track['distanceM']> => {
  const from = alongAt(path, fromS);
  const to = alongAt(path, toS);
  if (from === null || to === null || toS < fromS) return null;
  return { value: to - from, sd: Math.sqrt(distanceVariance(path, fromS, toS)) };
};

const timeAfter = (
  path: Path,
  outages: readonly Interval[],
  fromS: number,
  metres: number,
): ReturnType<Track['timeAfter']> => {
  const { atS, alongM } = path;
  const from = alongAt(path, fromS);
  if (from === null || metres < 0) return null;
  const goal = from + metres;
  const after = firstAtLeast(alongM, goal);
  if (after === alongM.length) return null;
  const low = Math.max(fromS, atS[Math.max(0, after - 1)]!);
  const high = Math.max(fromS, atS[after]!);
  if (outages.some((outage) => outage.fromS >= fromS && outage.fromS < high)) return null;
  const { after: reachedS } = bisected(low, high, (at) => alongAt(path, at)! < goal);
  const speedMps = Math.max(speedAt(path, reachedS) ?? 0, MOTION_SETTINGS.headingMps);
  return { atS: reachedS, durationSdS: Math.sqrt(distanceVariance(path, fromS, reachedS)) / speedMps };
};

/** A path as a track that can be asked. */
export const trackOf = (
  path: Path,
  startUnixS: number | null,
  { outages, bridges }: Pick<Track, 'outages' | 'bridges'>,
  errorModel: ErrorModel,
): Track => {
  const { atS, speedMps, alongM, stationary } = path;
  const crossings = crossingFinder(path);
  let furthest: number | null = null;
  return {
    startUnixS,
    fromS: atS[0]!,
    toS: atS[atS.length - 1]!,
    errorModel,
    atS,
    speedMps,
    alongM,
    stationary,
    outages,
    bridges,
    speedAt: (time) => speedAt(path, time),
    headingAt: (time) => headingAt(path, time),
    placeAt: (time) => placeAt(path, time),
    alongAt: (time) => alongAt(path, time),
    distanceM: (fromS, toS) => distanceBetween(path, fromS, toS),
    timeAfter: (fromS, metres) => timeAfter(path, outages, fromS, metres),
    crossings: crossings.crossings,
    crossingDurationSdS: crossings.durationSdS,
    get furthestM() {
      furthest ??= furthestM(path);
      return furthest;
    },
  };
};
