import { valueAt } from './grid.js';
import { type HullMotion, STEP_S } from './hull.js';
import { narrowNoise } from './narrow-noise.js';
import type { Random } from './random.js';

/** Narrow-banded waves, stated by the motion of the hull that they make. */
export interface Swell {
  /** Frequency over ground, Hz, width of the band, octaves, and where the waves run to, degrees. */
  readonly hz: number;
  readonly octaves: number;
  readonly toDeg: number;
  /** rms of the measured surge, met along the hull, pitch's share of gravity included, m/s². */
  readonly surgeMps2: number;
  /** rms of heave / that surge, and share of gravity that pitch, roll and sway carry in it; 0 leaves them out. */
  readonly heave: number;
  readonly pitch: number;
  readonly roll: number;
  readonly sway: number;
  readonly yawDeg: number;
  /** How far the surge leads the heave, degrees: 90 on the slope of a long wave, something else for a short hull. */
  readonly leadDeg: number;
  /** From when to when, s. */
  readonly fromS: number;
  readonly toS: number;
}

export const USUAL_SWELL: Swell = {
  hz: 0.8,
  octaves: 1 / 3,
  toDeg: 220,
  surgeMps2: 0,
  heave: 1.2,
  pitch: 0.5,
  roll: 0.4,
  sway: 0.4,
  yawDeg: 0.3,
  leadDeg: 90,
  fromS: Number.NEGATIVE_INFINITY,
  toS: Number.POSITIVE_INFINITY,
};

/** Where a hull's disturbance is added to: on a grid. */
export interface Disturbance {
  readonly stepS: number;
  readonly surgeMps2: Float64Array;
  readonly swayMps2: Float64Array;
  readonly heaveMps2: Float64Array;
  readonly pitchRad: Float64Array;
  readonly rollRad: Float64Array;
  readonly yawRad: Float64Array;
}

const GRAVITY = 9.80665;
/** A swell sets in and dies within so many seconds. */
const FADE_S = 6;

/**
 * Lay a swell on the hull's disturbance. A boat that runs against the waves meets them sooner: the noise is read at
 * the time by which as many waves have passed, t - k x / omega, with deep water's k = omega² / g.
 */
export const addSwell = (
  to: Disturbance,
  swell: Swell,
  hull: HullMotion,
  endS: number,
  random: Random,
): void => {
  const direction = (swell.toDeg * Math.PI) / 180;
  const [east, north] = [Math.sin(direction), Math.cos(direction)];
  const slowness = (2 * Math.PI * swell.hz) / GRAVITY;
  const count = to.surgeMps2.length;
  const passed = Float64Array.from({ length: count }, (_, i) => {
    const atS = i * to.stepS;
    const along = valueAt(hull.eastM, STEP_S, atS) * east + valueAt(hull.northM, STEP_S, atS) * north;
    return atS - slowness * along;
  });
  const least = passed.reduce((min, value) => Math.min(min, value), 0);
  const most = passed.reduce((max, value) => Math.max(max, value), endS);
  const noise = narrowNoise(swell.hz, swell.octaves, most - least + 1, random);
  const [cl, sl] = [Math.cos((swell.leadDeg * Math.PI) / 180), Math.sin((swell.leadDeg * Math.PI) / 180)];
  for (let i = 0; i < count; i++) {
    const atS = i * to.stepS;
    if (atS < swell.fromS || atS > swell.toS) continue;
    const fade = Math.min(1, (atS - swell.fromS) / FADE_S, (swell.toS - atS) / FADE_S);
    const size = swell.surgeMps2 * Math.max(0, fade);
    const height = noise.at(passed[i]! - least);
    const slope = cl * height + sl * noise.turnedAt(passed[i]! - least);
    const angle = valueAt(hull.headingRad, STEP_S, atS) - direction;
    const [meeting, beam] = [Math.cos(angle), Math.sin(angle)];
    to.surgeMps2[i] = to.surgeMps2[i]! + (1 - swell.pitch) * size * meeting * slope;
    to.pitchRad[i] = to.pitchRad[i]! + (swell.pitch * size * meeting * slope) / GRAVITY;
    to.heaveMps2[i] = to.heaveMps2[i]! + swell.heave * size * height;
    to.swayMps2[i] = to.swayMps2[i]! + swell.sway * size * beam * slope;
    to.rollRad[i] = to.rollRad[i]! + (swell.roll * size * beam * slope) / GRAVITY;
    to.yawRad[i] = to.yawRad[i]! + ((swell.yawDeg * Math.PI) / 180) * size * beam * height;
  }
};
