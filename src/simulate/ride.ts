import { type Band, bandOf } from './band.js';
import type { Random } from './random.js';
import { summed, type Waves } from './wave-motion.js';

/** Who moves a boat that nobody rows. */
export type Mover = 'tow' | 'hands' | 'trailer';

/** A stretch in which a boat was moved. */
export interface Ride {
  readonly by: Mover;
  readonly fromS: number;
  readonly toS: number;
}

type Shaking = Omit<Band, 'strength'>;

/**
 * How a boat shakes while it is moved; common practice. A tow jerks slowly on its line and yaws; people who carry a
 * boat step nearly twice a second, up and down above all, and sway at half of that; a trailer bounces on its
 * springs and rattles, and its driver brakes.
 */
export const RIDE_SETTINGS: Readonly<Record<Mover, readonly Shaking[]>> = Object.freeze({
  tow: [
    { hz: 0.32, octaves: 0.8, surge: 0.14, sway: 0.05, heave: 0.08, roll: 1, pitch: 0.3, yaw: 1.5 },
    { hz: 0.95, octaves: 0.7, surge: 0.1, sway: 0.08, heave: 0.25, roll: 0.8, pitch: 0.4, yaw: 0.2 },
  ],
  hands: [
    { hz: 1.8, octaves: 0.07, surge: 0.45, sway: 0.3, heave: 1.3, roll: 1, pitch: 0.5, yaw: 0 },
    { hz: 3.6, octaves: 0.07, surge: 0.25, sway: 0.1, heave: 0.5, roll: 0.3, pitch: 0.1, yaw: 0 },
    { hz: 0.9, octaves: 0.07, surge: 0.1, sway: 0.5, heave: 0.1, roll: 2, pitch: 0.3, yaw: 0.8 },
  ],
  trailer: [
    { hz: 1.7, octaves: 0.7, surge: 0.35, sway: 0.3, heave: 1.1, roll: 0.7, pitch: 0.8, yaw: 0.2 },
    { hz: 9, octaves: 1.2, surge: 0.5, sway: 0.4, heave: 1.2, roll: 0.1, pitch: 0.1, yaw: 0 },
    { hz: 0.09, octaves: 1.5, surge: 0.5, sway: 0.4, heave: 0.05, roll: 0.5, pitch: 0.6, yaw: 2 },
  ],
});

/** What shakes a boat while it is moved; still before and after. */
export const rideOf = (rides: readonly Ride[], random: Random): Waves =>
  summed(
    rides.flatMap(({ by, fromS, toS }) => {
      const strength = (atS: number) => (atS > fromS && atS < toS ? Math.min(1, atS - fromS, toS - atS) : 0);
      return RIDE_SETTINGS[by].map((shaking) => bandOf({ ...shaking, strength }, null, random));
    }),
  );
