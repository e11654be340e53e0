import type { Interval, Track } from '../motion/track.js';
import type { Stream } from '../units/stream.js';

const RADIANS = Math.PI / 180;

/**
 * Length of the path through the water, m: the time integral of |velocity over ground - stream| (trapezoids on
 * the track's own times, the ends included).
 * @returns null where the track does not reach over the whole stretch
 */
export const waterDistanceM = (track: Track, { fromS, toS }: Interval, stream: Stream): number | null => {
  if (fromS < track.fromS || toS > track.toS) return null;
  if (track.outages.some((gap) => gap.fromS < toS && gap.toS > fromS)) return null;
  const eastMps = stream.speedMps * Math.sin(stream.toDeg * RADIANS);
  const northMps = stream.speedMps * Math.cos(stream.toDeg * RADIANS);
  const speedThroughWater = (atS: number): number => {
    const speed = track.speedAt(atS) ?? 0;
    const heading = (track.headingAt(atS) ?? 0) * RADIANS;
    return Math.hypot(speed * Math.sin(heading) - eastMps, speed * Math.cos(heading) - northMps);
  };
  let [lengthM, beforeS, before] = [0, fromS, speedThroughWater(fromS)];
  const pass = (atS: number): void => {
    const now = speedThroughWater(atS);
    lengthM += ((before + now) / 2) * (atS - beforeS);
    [beforeS, before] = [atS, now];
  };
  for (const atS of track.atS) if (atS > fromS && atS < toS) pass(atS);
  pass(toS);
  return lengthM;
};
