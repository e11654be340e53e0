import type { CraftModel } from './craft-model.js';
import type { WaveMotion } from './wave-motion.js';

/** Size of a hull at the waterline, m. */
export interface HullSize {
  readonly lengthM: number;
  readonly beamM: number;
  readonly draughtM: number;
}

/** What of a hull's answer to waves is assumed; common practice for long thin hulls. */
export const RESPONSE_SETTINGS = Object.freeze({
  gravityMps2: 9.80665,
  waterKgPerM3: 1000,
  /** Beam at the waterline = share · length + a constant, m: a single 0.29, an eight 0.57, a kayak 0.40. */
  beamShare: 0.03,
  beamM: { rowing: 0.04, kayak: 0.25, canoe: 0.15, dragon: 0.75 },
  /** Displaced water / length · beam · draught. */
  blockShare: 0.5,
  crewKg: 82,
  /** Natural frequency of roll, Hz, and damping as a share of the critical: blades lie on the water. */
  rollHz: 0.7,
  rollDamping: 0.3,
});

/** Size of a craft's hull with its crew aboard. */
export const hullSize = ({ family, hullLengthM, hullKg, crewCount }: CraftModel): HullSize => {
  const set = RESPONSE_SETTINGS;
  const beamM = set.beamShare * hullLengthM + set.beamM[family];
  const massKg = hullKg + crewCount * set.crewKg;
  return {
    lengthM: hullLengthM,
    beamM,
    draughtM: massKg / (set.waterKgPerM3 * set.blockShare * hullLengthM * beamM),
  };
};

/** Mean of a wave's pressure over the hull's length, / that at its middle: sin x / x. */
const meanOver = (halfPhase: number): number =>
  Math.abs(halfPhase) < 1e-3 ? 1 : Math.sin(halfPhase) / halfPhase;

/** Slope of the line nearest to a wave over the hull's length, / its slope at the middle. */
const slopeOver = (halfPhase: number): number => {
  const x = Math.abs(halfPhase);
  return x < 0.05 ? 1 - (x * x) / 10 : (3 * (Math.sin(x) - x * Math.cos(x))) / x ** 3;
};

/**
 * Amplitudes of a hull's motion for each metre of a wave's own: heave and pitch by closed expressions for a
 * box-shaped hull (Jensen, Mansour & Olsen 2004, Ocean Engineering 31:61-85, written down from memory), surge
 * and sway by the wave's pressure alone (Froude-Krylov), roll as one swing driven by the wave's slope across.
 * Heave and yaw go with the wave's elevation (cosine), the others with its slope (sine).
 * @param omega frequency of the wave at a fixed point, rad/s
 * @param angle heading less the waves' own direction, rad: 0 from behind, π head on
 */
export const hullResponse = (
  omega: number,
  angle: number,
  speedMps: number,
  { lengthM, beamM, draughtM }: HullSize,
): WaveMotion => {
  const { gravityMps2: g, rollHz, rollDamping } = RESPONSE_SETTINGS;
  const k = (omega * omega) / g;
  const along = Math.cos(angle);
  const across = Math.sin(angle);
  const alpha = 1 - (omega * speedMps * along) / g;
  const met = omega * Math.abs(alpha);
  const half = (k * lengthM * along) / 2;
  const kappa = Math.exp(-k * draughtM);
  const sectional = 2 * Math.sin(Math.min(Math.PI / 2, (k * beamM * alpha * alpha) / 2));
  const damping = sectional * Math.exp(-k * draughtM * alpha * alpha);
  const spread = damping ** 2 / (k * beamM);
  const reach = Math.max(0.05, Math.abs(alpha));
  const forcing = kappa * Math.hypot(1 - k * draughtM, spread / reach ** 3);
  const swing = 1 / Math.hypot(1 - 2 * k * draughtM * alpha * alpha, spread / reach ** 2);
  const pressure = g * k * kappa * meanOver(half);
  const ratio = met / (2 * Math.PI * rollHz);
  const rolling = 1 / Math.hypot(1 - ratio * ratio, 2 * rollDamping * ratio);
  const slope = k * forcing * swing * slopeOver(half);
  return {
    surge: -pressure * along,
    sway: pressure * across,
    heave: -met * met * forcing * swing * meanOver(half),
    roll: k * across * kappa * meanOver(half) * rolling,
    pitch: slope * along,
    yaw: (k * along * across * kappa * slopeOver(half)) / Math.max(0.3, reach * reach),
  };
};
