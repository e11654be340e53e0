import { lastAtMost } from '../units/last-at-most.js';
import type { Stream } from '../units/stream.js';
import type { Progress, Track } from './track.js';

const RADIANS = Math.PI / 180;

/**
 * A track's progress through the water: the speed is |velocity over ground - stream|, its path the time integral of
 * that (trapezoids on the track's own times). Null where the track is; outages are left out.
 */
export const throughWater = (track: Track, stream: Stream): Progress => {
  const eastMps = stream.speedMps * Math.sin(stream.toDeg * RADIANS);
  const northMps = stream.speedMps * Math.cos(stream.toDeg * RADIANS);
  const speedAt = (atS: number): number | null => {
    const speed = track.speedAt(atS);
    if (speed === null) return null;
    const heading = (track.headingAt(atS) ?? 0) * RADIANS;
    return Math.hypot(speed * Math.sin(heading) - eastMps, speed * Math.cos(heading) - northMps);
  };
  const { atS } = track;
  const alongM = new Float64Array(atS.length);
  let last = speedAt(atS[0]!) ?? 0;
  for (let k = 1; k < atS.length; k++) {
    const own = speedAt(atS[k]!) ?? 0;
    const isOutage = track.outages.some(({ fromS, toS }) => fromS < atS[k]! && toS > atS[k - 1]!);
    alongM[k] = alongM[k - 1]! + (isOutage ? 0 : ((last + own) / 2) * (atS[k]! - atS[k - 1]!));
    last = own;
  }
  return {
    speedAt,
    alongAt: (at) => {
      if (track.alongAt(at) === null) return null;
      const k = Math.min(atS.length - 2, lastAtMost(atS, at));
      const share = (at - atS[k]!) / (atS[k + 1]! - atS[k]!);
      return alongM[k]! + share * (alongM[k + 1]! - alongM[k]!);
    },
  };
};
