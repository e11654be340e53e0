import type { ChannelName } from './channel-name.js';

/** What a quantity can be, in the unit of its channel; both ends belong to it. */
export interface PhysicalRange {
  readonly low: number;
  readonly high: number;
}

/**
 * What each component of each channel can be, in the order and unit of CHANNEL_SHAPES. A value outside was not
 * measured in a boat: every format leaves it out as missing, by the same code. Wide on purpose: what is unlikely is
 * kept, what cannot be is not.
 */
export const PHYSICAL_RANGES: Readonly<Record<ChannelName, readonly PhysicalRange[]>> = Object.freeze({
  // Degrees. No boat goes beyond 88° (open water ends near 84° N, value from memory), and the planes on which a track is
  // smoothed have no longitude at a pole.
  position: [
    { low: -88, high: 88 },
    { low: -180, high: 180 },
  ],
  // m; the lowest water lies at -430 m and the highest at 6400 m (value from memory), a barometer is some hundreds off.
  elevation: [{ low: -1000, high: 10_000 }],
  // m/s; a log may run on in the car home. Below 0 the noise of a receiver at rest, where its writer keeps the sign.
  speed: [{ low: -1, high: 60 }],
  // m; the longest races are of 1600 km (common practice), a logger may carry its sum from outing to outing.
  distance: [{ low: 0, high: 100_000_000 }],
  // 1/min; the highest rates are near 160 (both sides of a sprint kayak, common practice); 255 means none in FIT.
  cadence: [{ low: 0, high: 250 }],
  // 1/min; no heart of a person who rows is slower or faster (value from memory); 255 means none in FIT.
  heart_rate: [{ low: 20, high: 250 }],
  // m/s²; accelerometers of loggers end at 16 g or 32 g, those for blows at 200 g.
  acceleration: Array.from({ length: 3 }, () => ({ low: -2000, high: 2000 })),
  // rad/s; gyroscopes end at 2000 °/s or 4000 °/s, which is 70 rad/s.
  rotation: Array.from({ length: 3 }, () => ({ low: -75, high: 75 })),
});

/** What the accuracy that a log states for a position can be, m: beyond, there was no fix. */
export const ACCURACY_RANGE: PhysicalRange = Object.freeze({ low: 0, high: 10_000 });

/** What a date can be, Unix s: from 1980, when the first receivers ran, to 2100. */
export const DATE_RANGE: PhysicalRange = Object.freeze({ low: 315_532_800, high: 4_102_444_800 });

/** Index of the first value that lies outside a range or is no number; the number of values where none is. */
export const firstOutside = (values: Float64Array, { low, high }: PhysicalRange): number => {
  let i = 0;
  while (i < values.length && values[i]! >= low && values[i]! <= high) i++;
  return i;
};
