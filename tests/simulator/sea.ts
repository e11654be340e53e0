import { valueAt } from './grid.js';
import { type HullMotion, STEP_S } from './hull.js';
import type { Random } from './random.js';
import type { Disturbance } from './swell.js';

/** A sea as a forecast states it. */
export interface Sea {
  /** Significant height, m, and peak frequency, Hz. */
  readonly heightM: number;
  readonly peakHz: number;
  /** Where it runs to, degrees. */
  readonly toDeg: number;
  /** Length of the hull that answers to it, m. */
  readonly hullM: number;
}

const GRAVITY = 9.80665;
const WAVES = 90;
/** Directions of single waves: cosine-squared about the main one, to 60 degrees either side. */
const WIDEST = Math.PI / 3;
/** Natural frequency and damping of roll, of heave and of pitch. */
const ROLL = { hz: 0.6, damping: 0.35 };
const PITCH = { hz: 0.9, damping: 0.5 };

/** Elevation spectrum of a fully risen sea (Pierson & Moskowitz 1964, J. Geophys. Res. 69:5181), without its constant. */
const moskowitz = (hz: number, peakHz: number): number => hz ** -5 * Math.exp(-1.25 * (peakHz / hz) ** 4);

/** Size and phase lag of a damped swing, driven at a frequency. */
const swingOf = (hz: number, own: { hz: number; damping: number }): { size: number; lag: number } => {
  const r = hz / own.hz;
  return {
    size: 1 / Math.hypot(1 - r * r, 2 * own.damping * r),
    lag: Math.atan2(2 * own.damping * r, 1 - r * r),
  };
};

/** Mean of cos over a hull as long as so many radians of wave. */
const evenedOut = (half: number): number => (half < 1e-3 ? 1 : Math.sin(half) / half);

/**
 * Lay a sea on the hull's disturbance: waves of random height (so that groups come and go), each evened out over
 * the hull's length; surge by the slope of the water, pitch and roll as damped swings that lag behind it.
 */
export const addSea = (to: Disturbance, sea: Sea, hull: HullMotion, random: Random): void => {
  const lowest = 0.7 * sea.peakHz;
  const width = (2.6 * sea.peakHz) / WAVES;
  let total = 0;
  const waves = Array.from({ length: WAVES }, (_, i) => {
    const hz = lowest + (i + random.uniform()) * width;
    const power = moskowitz(hz, sea.peakHz) * width;
    total += power;
    let turn = 0;
    do turn = WIDEST * (2 * random.uniform() - 1);
    while (random.uniform() > Math.cos((Math.PI * turn) / (2 * WIDEST)) ** 2);
    return {
      hz,
      power,
      direction: (sea.toDeg * Math.PI) / 180 + turn,
      p: random.normal(),
      q: random.normal(),
    };
  });
  const count = to.surgeMps2.length;
  for (const wave of waves) {
    const omega = 2 * Math.PI * wave.hz;
    const k = omega ** 2 / GRAVITY;
    const sd = (sea.heightM / 4) * Math.sqrt(wave.power / total);
    const [height, phase] = [sd * Math.hypot(wave.p, wave.q), Math.atan2(wave.q, wave.p)];
    const [east, north] = [Math.sin(wave.direction), Math.cos(wave.direction)];
    let before = Number.NaN;
    for (let i = 0; i < count; i++) {
      const atS = i * to.stepS;
      const along = valueAt(hull.eastM, STEP_S, atS) * east + valueAt(hull.northM, STEP_S, atS) * north;
      const angle = valueAt(hull.headingRad, STEP_S, atS) - wave.direction;
      const theta = omega * atS - k * along + phase;
      const metHz = Number.isNaN(before) ? wave.hz : Math.abs(theta - before) / (2 * Math.PI * to.stepS);
      before = theta;
      const even = evenedOut((k * sea.hullM * Math.abs(Math.cos(angle))) / 2);
      const steep = k * height * even;
      const [pitch, roll] = [swingOf(metHz, PITCH), swingOf(metHz, ROLL)];
      const [ahead, abeam] = [Math.cos(angle), Math.sin(angle)];
      to.surgeMps2[i] = to.surgeMps2[i]! - GRAVITY * steep * ahead * Math.sin(theta);
      to.swayMps2[i] = to.swayMps2[i]! + GRAVITY * steep * abeam * Math.sin(theta);
      to.heaveMps2[i] =
        to.heaveMps2[i]! -
        (2 * Math.PI * metHz) ** 2 * height * even * pitch.size * Math.cos(theta - pitch.lag);
      to.pitchRad[i] = to.pitchRad[i]! + steep * ahead * pitch.size * Math.sin(theta - pitch.lag);
      to.rollRad[i] = to.rollRad[i]! + steep * abeam * roll.size * Math.sin(theta - roll.lag);
      to.yawRad[i] = to.yawRad[i]! + 0.5 * steep * ahead * abeam * Math.cos(theta);
    }
  }
};
