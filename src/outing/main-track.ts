import type { WarningCode } from '../contract/severity.js';
import { geodesicBetween } from '../geodesy/index.js';
import {
  type ChannelDraft,
  type ChannelName,
  makeRecording,
  type Recording,
  usualIntervalS,
  type Warning,
} from '../recording/index.js';
import { median } from '../signal/index.js';
import { formatClock } from '../units/clock-time.js';
import { LogMisfit } from '../units/user-error.js';

/** When logs with positions belong to one outing. */
export const MAIN_TRACK_SETTINGS = Object.freeze({
  /** A track goes on in another file after no longer than this, s: a battery changed, a rest on the stage. */
  longestBreakS: 3600,
  /** … and no farther away than a boat gets in that time, m/s, beyond the error of both fixes, m. */
  fastestMps: 7,
  errorM: 50,
  /** Two devices in one boat lie this close, m, as a rule: receivers differ by 5 to 10. */
  apartM: 30,
  /** Moments at which two tracks are compared; 20 to 200. */
  looks: 60,
  /** Parts may overlap by this, s: the last record of one is the first of the next. */
  overlapS: 2,
});

/** The log that names an outing and tells its time, with what was done to get it. */
export interface MainTrack {
  readonly main: Recording;
  /** The logs that are not part of it: IMU logs. */
  readonly others: readonly Recording[];
  readonly warnings: readonly Warning[];
}

const fileOf = ({ provenance }: Recording): string => provenance.file;
const endUnixS = (log: Recording): number => log.startUnixS! + log.durationS;

const placeOf = (log: Recording, index: number) => {
  const [lat, lon] = log.channels.position!.columns as [Float64Array, Float64Array];
  return { latDeg: lat.at(index)!, lonDeg: lon.at(index)! };
};

/** Position of a log at a moment, between its fixes; null outside or in a gap. */
const placeAt = (log: Recording, unixS: number) => {
  const { atS, columns, gaps } = log.channels.position!;
  const at = unixS - log.startUnixS!;
  const after = atS.findIndex((time) => time >= at);
  if (after < 1 || gaps.some(({ fromS, toS }) => at > fromS && at < toS)) return null;
  const share = (at - atS[after - 1]!) / (atS[after]! - atS[after - 1]!);
  const [latDeg, lonDeg] = columns.map(
    (column) => column[after - 1]! + share * (column[after]! - column[after - 1]!),
  );
  return { latDeg: latDeg!, lonDeg: lonDeg! };
};

/** How far apart two logs are as a rule while both run, m; null where they have no moment in common. */
const apartM = (first: Recording, second: Recording): number | null => {
  const fromS = Math.max(first.startUnixS!, second.startUnixS!);
  const toS = Math.min(endUnixS(first), endUnixS(second));
  const { looks } = MAIN_TRACK_SETTINGS;
  const distances = Array.from({ length: looks }, (_, i) => {
    const unixS = fromS + ((i + 0.5) * (toS - fromS)) / looks;
    const [here, there] = [placeAt(first, unixS), placeAt(second, unixS)];
    return here && there ? geodesicBetween(here, there).distanceM : null;
  }).filter((distance) => distance !== null);
  return distances.length === 0 ? null : median(distances);
};

/** The better of two logs of one outing first: an accelerometer, then more fixes a second, then the longer one. */
const byWorth = (a: Recording, b: Recording): number =>
  Number(b.channels.acceleration !== undefined) - Number(a.channels.acceleration !== undefined) ||
  (usualIntervalS(a.channels.position!.atS) ?? Number.POSITIVE_INFINITY) -
    (usualIntervalS(b.channels.position!.atS) ?? Number.POSITIVE_INFINITY) ||
  b.durationS - a.durationS;

const movedBy = (draft: ChannelDraft, shiftS: number): ChannelDraft => ({
  ...draft,
  atS: draft.atS.map((at) => at + shiftS),
  breaksS: (draft.breaksS ?? []).map((at) => at + shiftS),
});

const draftOf = (log: Recording, name: ChannelName): ChannelDraft | null => {
  const channel = log.channels[name];
  if (channel === undefined) return null;
  const breaksS = channel.gaps.filter(({ kind }) => kind === 'segment').map(({ toS }) => toS);
  return { atS: channel.atS, columns: channel.columns, breaksS };
};

const appended = (first: ChannelDraft, second: ChannelDraft): ChannelDraft => {
  const lastS = first.atS.at(-1)!;
  const skip = second.atS.findIndex((at) => at > lastS);
  if (skip < 0) return first;
  const joined = (a: Float64Array, b: Float64Array): Float64Array =>
    Float64Array.from([...a, ...b.subarray(skip)]);
  return {
    atS: joined(first.atS, second.atS),
    columns: first.columns.map((column, i) => joined(column, second.columns[i]!)),
    breaksS: [...(first.breaksS ?? []), second.atS[skip]!, ...(second.breaksS ?? [])],
  };
};

/** Two parts of one track as one recording; the log begins anew where the second does. */
const joinedParts = (first: Recording, second: Recording): Recording => {
  const shiftS = second.startUnixS! - first.startUnixS!;
  const names = new Set([...Object.keys(first.channels), ...Object.keys(second.channels)] as ChannelName[]);
  const channels: Partial<Record<ChannelName, ChannelDraft>> = {};
  for (const name of names) {
    const before = draftOf(first, name);
    const after = draftOf(second, name);
    const moved = after === null ? null : movedBy(after, shiftS);
    channels[name] = before && moved ? appended(before, moved) : (before ?? moved)!;
  }
  return makeRecording({
    provenance: first.provenance,
    originUnixS: first.startUnixS,
    channels,
    laps: [
      ...first.laps,
      ...second.laps.map((lap) => ({ fromS: lap.fromS + shiftS, toS: lap.toS + shiftS })),
    ],
    statedPositionSdM: first.statedPositionSdM ?? second.statedPositionSdM,
    statedPlacement: first.statedPlacement ?? second.statedPlacement,
    land: first.land && second.land,
    warnings: [...first.warnings, ...second.warnings],
  });
};

const goesOn = (first: Recording, second: Recording): boolean => {
  const { longestBreakS, fastestMps, errorM, overlapS } = MAIN_TRACK_SETTINGS;
  const breakS = second.startUnixS! - endUnixS(first);
  const pathM = geodesicBetween(placeOf(first, -1), placeOf(second, 0)).distanceM;
  return breakS >= -overlapS && breakS <= longestBreakS && pathM <= errorM + fastestMps * Math.max(0, breakS);
};

/**
 * The main track of an outing: of several logs with positions, parts that follow one another in time and place
 * are joined, and of two devices in one boat the better log is kept.
 * @throws LogMisfit where logs with positions are of different outings, or have no date to put them in order
 */
export const mainTrack = (logs: readonly Recording[]): MainTrack => {
  const tracks = logs.filter(({ channels }) => channels.position !== undefined);
  const first = tracks[0] ?? logs[0];
  if (first === undefined) throw new Error('an outing was opened without a log');
  if (tracks.length < 2) return { main: first, others: logs.filter((log) => log !== first), warnings: [] };
  const dateless = tracks.find(({ startUnixS }) => startUnixS === null);
  if (dateless !== undefined)
    throw new LogMisfit(
      `${fileOf(dateless)} has no date, so it cannot be joined with ${fileOf(tracks.find((log) => log !== dateless)!)}; give one track and the IMU log that belongs to it`,
    );
  const warnings: Warning[] = [];
  const warn = (code: WarningCode, log: Recording, message: string): void => {
    warnings.push({ code, file: fileOf(log), where: null, message });
  };
  const [earliest, ...rest] = [...tracks].sort((a, b) => a.startUnixS! - b.startUnixS!) as [
    Recording,
    ...Recording[],
  ];
  let main = earliest;
  for (const next of rest) {
    const apart = apartM(main, next);
    if (goesOn(main, next)) {
      const breakS = Math.max(0, next.startUnixS! - endUnixS(main));
      warn(
        'parts-joined',
        next,
        `this log goes on from ${fileOf(main)} after ${formatClock(breakS, 0)} and is joined to it`,
      );
      main = joinedParts(main, next);
    } else if (apart !== null && apart <= MAIN_TRACK_SETTINGS.apartM) {
      const [better, other] = [main, next].sort(byWorth) as [Recording, Recording];
      warn(
        'same-outing',
        other,
        `this log is of the same outing as ${fileOf(better)}, which holds more; it is left out`,
      );
      main = better;
    } else
      throw new LogMisfit(
        `the tracks of ${fileOf(main)} and ${fileOf(next)} ${apart === null ? 'do not follow one another' : `lie ${Math.round(apart)} m apart at the same time`}, so they are two outings: give them one by one`,
      );
  }
  return { main, others: logs.filter((log) => !tracks.includes(log)), warnings };
};
