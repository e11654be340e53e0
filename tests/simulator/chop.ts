import { valueAt } from './grid.js';
import { type HullMotion, STEP_S } from './hull.js';
import type { Random } from './random.js';
import { addRide } from './ride.js';
import { isRow, type LaidStep } from './script.js';
import { addSea, type Sea } from './sea.js';
import { addSwell, type Disturbance, type Swell } from './swell.js';

/** Waves on the water, as they show in the hull. */
export interface ChopAsk {
  /** rms of the measured surge disturbance, pitch's share of gravity included, m/s². */
  readonly surgeMps2: number;
  /** Peak frequency of the waves over ground, Hz, and where they run to, degrees. */
  readonly peakHz: number;
  readonly toDeg: number;
  /** Trains of waves from passing boats. */
  readonly wash: readonly Wash[];
  readonly swells: readonly Swell[];
  readonly seas: readonly Sea[];
}

/** A train of waves that swells and dies away. */
export interface Wash {
  readonly atS: number;
  readonly lengthS: number;
  /** Amplitude of the measured surge at its height, m/s², and its frequency at the hull, Hz. */
  readonly surgeMps2: number;
  readonly hz: number;
}

const GRAVITY = 9.80665;
const CHOP_STEP_S = 0.02;
const WAVES = 14;
/** Share of the measured surge that is pitch turning gravity forward. */
const PITCH_SHARE = 0.6;
const HEAVE = 1.4;
const ROLL = 0.5;
const SWAY = 0.5;
/** Directions of the single waves spread about the main one, rad. */
const SPREAD = 0.35;

/** JONSWAP spectrum (Hasselmann et al. 1973), peak enhancement 3.3, without its constant. */
const jonswap = (hz: number, peakHz: number): number => {
  const width = hz <= peakHz ? 0.07 : 0.09;
  const peak = Math.exp(-((hz / peakHz - 1) ** 2) / (2 * width * width));
  return hz ** -5 * Math.exp(-1.25 * (peakHz / hz) ** 4) * 3.3 ** peak;
};

/**
 * What waves do to the hull: each wave has its frequency over ground and its direction, and meets the hull where
 * the hull is, so that heading into it raises the frequency (deep water, k = omega² / g).
 */
export const makeChop = (
  ask: ChopAsk,
  hull: HullMotion,
  steps: readonly LaidStep[],
  endS: number,
  random: Random,
): Disturbance => {
  const count = Math.floor(endS / CHOP_STEP_S) + 2;
  const [surgeMps2, swayMps2, heaveMps2, pitchRad, rollRad, yawRad] = [0, 0, 0, 0, 0, 0].map(
    () => new Float64Array(count),
  ) as [Float64Array, Float64Array, Float64Array, Float64Array, Float64Array, Float64Array];
  const waves = Array.from({ length: ask.surgeMps2 > 0 ? WAVES : 0 }, (_, i) => {
    const hz = ask.peakHz * (0.75 + ((i + random.uniform()) / WAVES) * 1.15);
    const omega = 2 * Math.PI * hz;
    const direction = (ask.toDeg * Math.PI) / 180 + SPREAD * random.normal();
    // Slope, which pitch and surge follow, rises with k: spectrum of elevation times omega^4.
    return {
      power: jonswap(hz, ask.peakHz) * omega ** 4,
      omega,
      east: (omega ** 2 / GRAVITY) * Math.sin(direction),
      north: (omega ** 2 / GRAVITY) * Math.cos(direction),
      direction,
      phase: 2 * Math.PI * random.uniform(),
    };
  });
  const total = waves.reduce((sum, wave) => sum + wave.power, 0);
  for (const wave of waves) {
    const height = ask.surgeMps2 * Math.sqrt((2 * wave.power) / total);
    for (let i = 0; i < count; i++) {
      const atS = i * CHOP_STEP_S;
      const east = valueAt(hull.eastM, STEP_S, atS);
      const north = valueAt(hull.northM, STEP_S, atS);
      const phase = wave.omega * atS - wave.east * east - wave.north * north + wave.phase;
      const [sine, cosine] = [Math.sin(phase), Math.cos(phase)];
      const abeam = Math.sin(wave.direction - valueAt(hull.headingRad, STEP_S, atS));
      surgeMps2[i] = surgeMps2[i]! + (1 - PITCH_SHARE) * height * sine;
      pitchRad[i] = pitchRad[i]! + (PITCH_SHARE * height * sine) / GRAVITY;
      heaveMps2[i] = heaveMps2[i]! + HEAVE * height * cosine;
      swayMps2[i] = swayMps2[i]! + SWAY * height * abeam * sine;
      rollRad[i] = rollRad[i]! + ROLL * height * abeam * cosine * (1 / GRAVITY);
    }
  }
  for (const wash of ask.wash) {
    const from = Math.max(0, Math.round(wash.atS / CHOP_STEP_S));
    const to = Math.min(count, Math.round((wash.atS + wash.lengthS) / CHOP_STEP_S));
    for (let i = from; i < to; i++) {
      const swell = wash.surgeMps2 * Math.sin((Math.PI * (i - from)) / (to - from)) ** 2;
      const phase = 2 * Math.PI * wash.hz * (i - from) * CHOP_STEP_S;
      surgeMps2[i] = surgeMps2[i]! + (1 - PITCH_SHARE) * swell * Math.sin(phase);
      pitchRad[i] = pitchRad[i]! + (PITCH_SHARE * swell * Math.sin(phase)) / GRAVITY;
      heaveMps2[i] = heaveMps2[i]! + HEAVE * swell * Math.cos(phase);
      rollRad[i] = rollRad[i]! + (ROLL * swell * Math.cos(phase)) / GRAVITY;
    }
  }
  const made = { stepS: CHOP_STEP_S, surgeMps2, swayMps2, heaveMps2, pitchRad, rollRad, yawRad };
  for (const swell of ask.swells) addSwell(made, swell, hull, endS, random);
  for (const sea of ask.seas) addSea(made, sea, hull, random);
  for (const { fromS, toS, step } of steps)
    if (!isRow(step) && step.movedBy) addRide(made, step.movedBy, fromS, toS, random);
  return made;
};
