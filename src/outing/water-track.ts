import type { Interval, Track } from '../motion/index.js';
import type { Stream } from '../units/stream.js';
import type { Outing } from './outing.js';

/** What is asked of a track to judge how hard a boat was rowed. */
export type RowedTrack = Pick<
  Track,
  'fromS' | 'toS' | 'atS' | 'speedMps' | 'alongAt' | 'speedAt' | 'stationary' | 'outages'
>;

const RADIANS = Math.PI / 180;

const inAny = (intervals: readonly Interval[], atS: number): boolean =>
  intervals.some(({ fromS, toS }) => atS >= fromS && atS < toS);

/** Index of the last time at or before a moment within the track, and how far on to the next it is. */
const stepAt = (atS: Float64Array, at: number): { readonly i: number; readonly share: number } | null => {
  let [low, high] = [0, atS.length - 1];
  if (!(at >= atS[low]! && at <= atS[high]!)) return null;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (atS[middle]! <= at) low = middle;
    else high = middle;
  }
  return { i: low, share: high === low ? 0 : (at - atS[low]!) / (atS[high]! - atS[low]!) };
};

const throughWater = (track: Track, stream: Stream): RowedTrack => {
  const { atS } = track;
  const [streamEast, streamNorth] = [
    stream.speedMps * Math.sin(stream.toDeg * RADIANS),
    stream.speedMps * Math.cos(stream.toDeg * RADIANS),
  ];
  const speedMps = new Float64Array(atS.length);
  const alongM = new Float64Array(atS.length);
  for (let i = 0; i < atS.length; i++) {
    const over = track.speedMps[i]!;
    // A boat that lies still over ground is moored or aground: nobody rows it.
    const heading = (track.headingAt(atS[i]!) ?? 0) * RADIANS;
    speedMps[i] = inAny(track.stationary, atS[i]!)
      ? 0
      : Math.hypot(over * Math.sin(heading) - streamEast, over * Math.cos(heading) - streamNorth);
    const held = i === 0 || track.outages.some((gap) => gap.fromS < atS[i]! && gap.toS > atS[i - 1]!);
    alongM[i] = held
      ? (alongM[i - 1] ?? 0)
      : alongM[i - 1]! + ((speedMps[i - 1]! + speedMps[i]!) / 2) * (atS[i]! - atS[i - 1]!);
  }
  const read = (values: Float64Array) => (at: number) => {
    const step = stepAt(atS, at);
    if (step === null) return null;
    const next = values[Math.min(values.length - 1, step.i + 1)]!;
    return values[step.i]! + step.share * (next - values[step.i]!);
  };
  const { fromS, toS, stationary, outages } = track;
  return { fromS, toS, atS, speedMps, alongAt: read(alongM), speedAt: read(speedMps), stationary, outages };
};

const made = new WeakMap<Track, { readonly stream: Stream; readonly rowed: RowedTrack }>();

/**
 * The track as the crew's work shows in it: speeds and way through the water where the stream is known, else over
 * ground. A boat adrift is at rest in it.
 */
export const rowedTrack = ({ track, stream }: Pick<Outing, 'track' | 'stream'>): RowedTrack | null => {
  if (track === null || stream === null) return track;
  const known = made.get(track);
  if (known !== undefined && known.stream.speedMps === stream.speedMps && known.stream.toDeg === stream.toDeg)
    return known.rowed;
  const rowed = throughWater(track, stream);
  made.set(track, { stream, rowed });
  return rowed;
};
