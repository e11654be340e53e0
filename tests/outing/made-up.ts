import type { Interval, Track } from '../../src/motion/track.js';
import type { Outing } from '../../src/outing/outing.js';
import { type ChannelDraft, type ChannelName, makeRecording } from '../../src/recording/index.js';
import type { Stroke } from '../../src/strokes/stroke.js';

/** A boat that goes due north along a meridian at exactly known speeds, for tests of what is made of a track. */
export const northTrack = (
  speedMps: (atS: number) => number,
  durationS: number,
  more: Partial<Track> = {},
): Track => {
  const stepS = 0.1;
  const count = Math.round(durationS / stepS) + 1;
  const atS = Float64Array.from({ length: count }, (_, i) => i * stepS);
  const speeds = atS.map(speedMps);
  const along = new Float64Array(count);
  for (let i = 1; i < count; i++) along[i] = along[i - 1]! + ((speeds[i - 1]! + speeds[i]!) / 2) * stepS;
  const alongAt = (at: number): number => {
    const i = Math.min(count - 2, Math.max(0, Math.floor(at / stepS)));
    return along[i]! + (along[i + 1]! - along[i]!) * ((at - atS[i]!) / stepS);
  };
  const inside = (at: number) => at >= 0 && at <= durationS;
  return {
    startUnixS: 1_750_000_000,
    fromS: 0,
    toS: durationS,
    errorModel: {
      positionSdM: 2,
      correlationS: 60,
      whiteSdM: 0.5,
      speedSdMps: 0.1,
      speedWander: null,
      source: 'default',
    },
    atS,
    speedMps: speeds,
    alongM: along,
    alongAt: (at) => (inside(at) ? alongAt(at) : null),
    stationary: [],
    outages: [],
    bridges: [],
    speedAt: (at) => (inside(at) ? speedMps(at) : null),
    headingAt: (at) => (inside(at) && speedMps(at) > 0 ? 0 : null),
    placeAt: (at) => (inside(at) ? { latDeg: 45 + alongAt(at) / 111_131.777, lonDeg: 10 } : null),
    distanceM: (fromS, toS) => {
      const [from, to] = [Math.max(0, fromS), Math.min(durationS, toS)];
      return to < from ? null : { value: alongAt(to) - alongAt(from), sd: 1 };
    },
    timeAfter: (fromS, metres) => {
      const target = alongAt(fromS) + metres;
      const i = along.findIndex((value) => value >= target);
      if (i < 1) return null;
      const at = atS[i - 1]! + ((target - along[i - 1]!) / (along[i]! - along[i - 1]!)) * stepS;
      return { atS: at, durationSdS: 0.2 };
    },
    crossings: () => [],
    crossingDurationSdS: () => 0,
    furthestM: along.at(-1)!,
    ...more,
  };
};

/** Strokes at an even rate from `fromS` to `toS`; the last of a run has no rate. */
export const evenStrokes = (runs: readonly (Interval & { readonly rateSpm: number })[]): Stroke[] =>
  runs.flatMap(({ fromS, toS, rateSpm }, run) => {
    const count = Math.round(((toS - fromS) * rateSpm) / 60);
    const last = runs[run + 1] === undefined || runs[run + 1]!.fromS > toS + 0.01;
    return Array.from({ length: count }, (_, i) => ({
      atS: fromS + (i * 60) / rateSpm,
      rateSpm: last && i === count - 1 ? null : rateSpm,
      source: 'imu' as const,
      confidence: 1,
      kind: 'rowing' as const,
      driveS: null,
      speedMinMps: null,
      speedMaxMps: null,
      speedVariation: 0.1,
      extraDragPowerPct: 5,
      catchDecelerationMps2: null,
    }));
  });

/** An outing with this track and these strokes. */
export const outingOf = (
  track: Track | null,
  strokes: readonly Stroke[] | null,
  more: Partial<Outing> & { readonly channels?: Partial<Record<ChannelName, ChannelDraft>> } = {},
): Outing => {
  const durationS = track?.toS ?? 600;
  const { channels, ...rest } = more;
  return {
    file: 'a.gpx',
    files: ['a.gpx'],
    recording: makeRecording({
      provenance: { file: 'a.gpx', format: 'gpx', device: null, sport: null },
      originUnixS: 1_750_000_000,
      channels: channels ?? {
        elevation: { atS: Float64Array.of(0, durationS), columns: [Float64Array.of(0, 0)] },
      },
    }),
    craft: null,
    placement: 'unknown',
    sheet: null,
    boat: null,
    stream: null,
    track,
    strokes: {
      strokes: strokes ?? [],
      source: strokes === null ? null : 'imu',
      craft: null,
      signals: [],
      warnings: [],
    },
    warnings: [],
    ...rest,
  };
};
