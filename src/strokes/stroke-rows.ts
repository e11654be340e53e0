import type { StrokeRow } from '../contract/strokes.js';
import { lengthBetween, throughWater } from '../motion/index.js';
import type { Track } from '../motion/track.js';
import type { Channel, Recording } from '../recording/index.js';
import { isoTime } from '../units/instant.js';
import { splitOfSpeed } from '../units/speed.js';
import type { Stream } from '../units/stream.js';
import type { StrokeSeries } from './stroke.js';
import { strokeSpeeds } from './stroke-figures.js';

/** s; a heart rate older than this says nothing of a stroke. */
const HEART_RATE_REACH_S = 5;

/** Reads a channel's latest value at increasing times. */
const latest = (channel: Channel | undefined): ((atS: number) => number | null) => {
  let next = 0;
  return (atS) => {
    if (!channel) return null;
    while (next < channel.atS.length && channel.atS[next]! <= atS) next++;
    const at = next - 1;
    return at >= 0 && atS - channel.atS[at]! <= HEART_RATE_REACH_S ? channel.columns[0]![at]! : null;
  };
};

/**
 * One row for each stroke, in the keys that cross borders.
 * @param series see `detectStrokes`
 * @param track null leaves speeds and distances unknown
 * @param recording gives the clock and the heart rate
 * @param stream where it is known, speeds are through the water; distances stay over ground
 */
export const strokeRows = (
  series: StrokeSeries,
  track: Track | null,
  recording: Recording,
  stream: Stream | null = null,
): StrokeRow[] => {
  const { strokes } = series;
  const marksS = strokes.map((stroke) => stroke.atS);
  const endsS = strokes.map((stroke, i) => (stroke.rateSpm === null ? null : (marksS[i + 1] ?? null)));
  const speeds = strokeSpeeds(marksS, endsS, track && stream ? throughWater(track, stream) : track);
  const heartRateAt = latest(recording.channels.heart_rate);
  return strokes.map((stroke, i): StrokeRow => {
    const speed = speeds[i]!;
    const endS = endsS[i]!;
    return {
      stroke: i + 1,
      time: recording.startUnixS === null ? null : isoTime(recording.startUnixS + stroke.atS),
      at_s: stroke.atS,
      rate_spm: stroke.rateSpm,
      speed_mps: speed,
      speed_over: stream === null ? 'ground' : 'water',
      split_s_per_500m: speed !== null && speed > 0 ? splitOfSpeed(speed) : null,
      distance_m: endS === null ? null : lengthBetween(track, stroke.atS, endS),
      cumulative_m: lengthBetween(track, marksS[0]!, stroke.atS),
      drive_s: stroke.driveS,
      speed_min_mps: stroke.speedMinMps,
      speed_max_mps: stroke.speedMaxMps,
      speed_variation: stroke.speedVariation,
      extra_drag_power_pct: stroke.extraDragPowerPct,
      catch_deceleration_mps2: stroke.catchDecelerationMps2,
      heart_rate_bpm: heartRateAt(stroke.atS),
      source: stroke.source,
      confidence: stroke.confidence,
      kind: stroke.kind,
    };
  });
};
