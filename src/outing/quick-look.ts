import { type Interval, smoothTrack, type Track } from '../motion/index.js';
import { type Channel, excerptOf, type Recording } from '../recording/index.js';
import { quantile } from '../signal/index.js';
import { craftFamily } from '../units/craft.js';
import { firstAtLeast } from '../units/first-at-least.js';
import { coarsePath, isWithoutJumps, movingStretches } from './coarse-path.js';
import { fineChannel } from './fine-channel.js';
import type { JoinedOuting } from './joined-outing.js';
import { type Rhythm, rhythmOf } from './rhythm.js';

/** What is seen of a long log where it was looked at here and there: enough for a yes, never for a no. */
export interface QuickLook {
  /** What the strokes show in. */
  readonly source: 'imu' | 'speed';
  /** Rhythms found, one a look at most. */
  readonly rhythms: readonly Rhythm[];
  readonly lookCount: number;
  /** The track, smoothed in some stretches alone; null where there are no positions. */
  readonly track: Track | null;
  /** Where in it sections of usual length begin, by the log's clock, s. */
  readonly sectionStartsS: readonly number[];
  /** Stretches of movement, by coarse steps; empty where there are no positions. */
  readonly moves: readonly Interval[];
}

/** When a log is long enough to be looked at here and there, and what is asked of what is seen. */
export const QUICK_LOOK_SETTINGS = Object.freeze({
  /** Logs with no more fixes and no more samples of acceleration than this are looked at whole: 20 min at 10 Hz,
   * 10 min at 100 Hz; they take half a second. */
  mostFixes: 12_000,
  mostMotion: 60_000,
  /** A log over more time than this is several outings, and looked at whole, s. */
  longestS: 43_200,
  /** Looks at the strokes, and the length of each, s; 20 to 40: some ten strokes at a low rate. */
  looks: 3,
  lookS: 30,
  /** Looks that must show a rhythm. */
  leastRhythms: 2,
  /** Likeness of one cycle to the next; 0.4 to 0.6: strokes in light chop show 0.6 to 0.98, chop alone 0.3. */
  leastLikeness: 0.5,
  /** Without a track to show that the boat moved: what is no plain swing; 0.15 to 0.3: waves show 0.05. */
  leastSharpness: 0.2,
  /** What walks lifts the sensor more than it pushes it; 0.3 to 1: an eight at race rate shows 0.1. */
  mostHeaveShare: 0.5,
  /** Steps of the coarse path, s; 5 to 15: what fixes are wrong by is little beside them. */
  stepS: 10,
  /** The boat moves from this speed on, m/s. */
  movingMps: 1,
  /** Looks at the track, and the way in each, m. One tells an sd to a tenth. */
  trackLooks: 1,
  trackM: 500,
  /** What is smoothed beyond both its ends, s; 5 to 15 give the same sd to a twentieth. */
  trackEdgeS: 8,
  /** Looks at how lively a sensor is are so long, s, at so many samples; below this share of the highest-power it rests. */
  livelyS: 10,
  livelySamples: 40,
  restShare: 0.3,
  /** A fix this far beyond what the fastest hull makes since the one before asks for a closer look, m and m/s. */
  jumpM: 6,
  fastestMps: 12,
});

/** What is said of gaps; it is said of the whole log as well. */
const GAP_CODES: ReadonlySet<string> = new Set(['position-outage', 'position-bridged']);

/** Some of many, spread evenly: the middle of each of so many equal parts. */
const spread = <Value>(values: readonly Value[], count: number): Value[] =>
  values.length < count
    ? []
    : Array.from({ length: count }, (_, i) => values[Math.floor(((i + 0.5) * values.length) / count)]!);

/** Starts of looks, a step apart, that lie wholly in some stretches. */
const startsIn = (stretches: readonly Interval[], lengthS: number, stepS: number): number[] =>
  stretches.flatMap(({ fromS, toS }) =>
    Array.from(
      { length: Math.max(0, Math.floor((toS - fromS - lengthS) / stepS) + 1) },
      (_, i) => fromS + i * stepS,
    ),
  );

/** Variance of every so many values between two places; 0 where there are no two. */
const varianceOf = (values: Float64Array, from: number, to: number, stride: number): number => {
  let sum = 0;
  let square = 0;
  let used = 0;
  for (let i = from; i < to; i += stride) {
    const value = values[i]!;
    sum += value;
    square += value * value;
    used++;
  }
  return used > 1 ? Math.max(0, square / used - (sum / used) ** 2) : 0;
};

/** Stretches in which an accelerometer moves as it does at work. */
const livelyStretches = ({ atS, columns }: Channel): Interval[] => {
  const { livelyS, livelySamples, restShare } = QUICK_LOOK_SETTINGS;
  const count = Math.floor(atS[atS.length - 1]! / livelyS);
  const lively = new Float64Array(count);
  let from = 0;
  for (let k = 0; k < count; k++) {
    const to = firstAtLeast(atS, (k + 1) * livelyS);
    const stride = Math.max(1, Math.floor((to - from) / livelySamples));
    for (const column of columns) lively[k]! += varianceOf(column, from, to, stride);
    from = to;
  }
  if (count === 0) return [];
  const least = restShare ** 2 * quantile(lively, 0.9);
  const found: { fromS: number; toS: number }[] = [];
  lively.forEach((power, k) => {
    if (power < least || power === 0) return;
    const last = found.at(-1);
    if (last !== undefined && last.toS === k * livelyS) last.toS += livelyS;
    else found.push({ fromS: k * livelyS, toS: (k + 1) * livelyS });
  });
  return found;
};

/** Stretches of some hundred metres under way, to judge the track by: the boat moves before they begin, too. */
const trackLooks = ({ stepS, stepM }: ReturnType<typeof coarsePath>): Interval[] => {
  const { trackLooks: looks, trackM, trackEdgeS, movingMps } = QUICK_LOOK_SETTINGS;
  const isMoving = (step: number): boolean => stepM[step]! >= movingMps * stepS;
  const found: Interval[] = [];
  for (let from = 1, to = 1, pathM = 0; from < stepM.length; from++) {
    if (to < from) [to, pathM] = [from, 0];
    while (to < stepM.length && pathM < trackM && isMoving(to)) pathM += stepM[to++]!;
    if (pathM >= trackM && isMoving(from - 1)) found.push({ fromS: from * stepS, toS: to * stepS });
    if (to > from) pathM -= stepM[from]!;
  }
  // Looks that overlap are one.
  return spread(found, looks).filter(
    ({ fromS }, i, all) => i === 0 || fromS - trackEdgeS > all[i - 1]!.toS + trackEdgeS,
  );
};

/** The recording within some stretches and a little beyond: what the track needs of it. */
const trackExcerpt = (recording: Recording, looks: readonly Interval[]): Recording | null => {
  const { trackEdgeS } = QUICK_LOOK_SETTINGS;
  const stretches = looks.map(({ fromS, toS }) => ({ fromS: fromS - trackEdgeS, toS: toS + trackEdgeS }));
  const position = excerptOf(recording.channels.position!, stretches);
  const speed = recording.channels.speed && excerptOf(recording.channels.speed, stretches);
  return position && { ...recording, channels: { position, ...(speed ? { speed } : {}) } };
};

const isLong = ({ durationS, channels: { position, acceleration } }: Recording): boolean =>
  durationS <= QUICK_LOOK_SETTINGS.longestS &&
  ((position?.atS.length ?? 0) > QUICK_LOOK_SETTINGS.mostFixes ||
    (acceleration?.atS.length ?? 0) > QUICK_LOOK_SETTINGS.mostMotion);

/** Looks at the strokes: where the boat moves, or where the sensor does. */
const strokeLooks = (channel: Channel, moves: readonly Interval[] | null): Interval[] => {
  const { looks, lookS, stepS } = QUICK_LOOK_SETTINGS;
  return spread(startsIn(moves ?? livelyStretches(channel), lookS, stepS), looks).map((fromS) => ({
    fromS,
    toS: fromS + lookS,
  }));
};

/**
 * Look at a long log here and there, for what it holds in plenty: strokes, way, a sound track.
 * @returns null where the log is short, or anything in it asks to be looked at whole
 */
export const quickLookAt = ({ recording, craft, boat }: JoinedOuting): QuickLook | null => {
  const { fastestMps, jumpM, stepS, movingMps, leastRhythms, leastLikeness, leastSharpness, mostHeaveShare } =
    QUICK_LOOK_SETTINGS;
  const family = craft === null ? null : craftFamily(craft);
  const fine = recording.land || !isLong(recording) ? null : fineChannel(recording, family ?? 'rowing');
  if (fine === null) return null;
  const { position } = recording.channels;
  let moves: readonly Interval[] | null = null;
  let track: Track | null = null;
  let sectionStartsS: readonly number[] = [];
  if (position !== undefined) {
    if (!isWithoutJumps(position, { fastestMps, errorM: jumpM })) return null;
    const way = coarsePath(position, stepS);
    moves = movingStretches(way, movingMps);
    const stretches = trackLooks(way);
    sectionStartsS = stretches.map(({ fromS }) => fromS);
    const part = trackExcerpt(recording, stretches);
    const smoothed = part && smoothTrack(part, { boat, once: true, partOf: recording });
    // The looks lie apart; anything else that is said of the track asks for a closer look.
    if (!smoothed?.track || smoothed.warnings.some(({ code }) => !GAP_CODES.has(code))) return null;
    track = smoothed.track;
  }
  const looks = strokeLooks(fine.channel, moves);
  const rhythms = looks
    .map((look) => excerptOf(fine.channel, [look]))
    .flatMap((part) => (part === null ? [] : (rhythmOf(part, family) ?? [])))
    .filter(
      ({ likeness, sharpness, heaveShare }) =>
        likeness >= leastLikeness &&
        (heaveShare ?? 0) <= mostHeaveShare &&
        (moves !== null || sharpness >= leastSharpness),
    );
  if (rhythms.length < leastRhythms) return null;
  return {
    source: fine.source,
    rhythms,
    lookCount: looks.length,
    track,
    sectionStartsS,
    moves: moves ?? [],
  };
};
