import type { Scenario } from '../contract/scenario.js';
import type { Random } from './random.js';
import type { WaveMotion, Waves } from './wave-motion.js';

/** What the sum of waves in a band is made of. */
export const BAND_SETTINGS = Object.freeze({
  /** Waves in the sum: enough for an envelope as wide as that of noise (Rayleigh's law). */
  waves: 32,
  gravityMps2: 9.80665,
  /** Octaves: what is called a swell here is a third of one wide. */
  octaves: 1 / 3,
  /** How much the frequency of a wake rises from its first wave to its last: long waves outrun short ones. */
  chirp: 0.3,
});

const RADIANS = Math.PI / 180;

/** Motion of a hull in a band of frequencies: rms of each of the six. */
export interface Band {
  readonly hz: number;
  /** Width of the band, octaves. */
  readonly octaves: number;
  /** m/s² */
  readonly surge: number;
  readonly sway: number;
  readonly heave: number;
  /** Degrees. */
  readonly roll: number;
  readonly pitch: number;
  readonly yaw: number;
  /** How strong it is at a time, 0 to 1. */
  readonly strength: (atS: number) => number;
}

/**
 * Narrow-banded motion: waves spread evenly over a band, with random phases, so that their sum wanders as noise
 * does. In quadrature with the heave lie surge, pitch and the others, as on the slope of a wave.
 * @param travel direction the waves run to, radians from true north, of deep water (wave number ω²/g: Lamb,
 *   Hydrodynamics, §229), so that a boat that heads into them meets them faster; null where they go with the hull
 */
export const bandOf = (band: Band, travel: number | null, random: Random): Waves => {
  const set = BAND_SETTINGS;
  const [east, north] = travel === null ? [0, 0] : [Math.sin(travel), Math.cos(travel)];
  const omega = Array.from({ length: set.waves }, (_, i) => {
    const place = (i + random.uniform()) / set.waves - 0.5;
    return 2 * Math.PI * band.hz * 2 ** (band.octaves * place);
  });
  const phase = omega.map(() => 2 * Math.PI * random.uniform());
  const each = Math.sqrt(2 / set.waves);
  return (atS, eastM, northM, headingRad): WaveMotion => {
    const along = eastM * east + northM * north;
    const strength = each * band.strength(atS);
    let [inPhase, across] = [0, 0];
    if (strength > 0)
      for (let i = 0; i < set.waves; i++) {
        const angle = omega[i]! * atS - ((omega[i]! * omega[i]!) / set.gravityMps2) * along + phase[i]!;
        inPhase += Math.cos(angle);
        across += Math.sin(angle);
      }
    inPhase *= strength;
    across *= strength;
    const meeting = travel === null ? 1 : Math.cos(headingRad - travel);
    const beam = travel === null ? 1 : Math.sin(headingRad - travel);
    return {
      surge: band.surge * meeting * across,
      sway: band.sway * beam * across,
      heave: band.heave * inPhase,
      roll: band.roll * RADIANS * beam * across,
      pitch: band.pitch * RADIANS * meeting * across,
      yaw: band.yaw * RADIANS * beam * inPhase,
    };
  };
};

type Wave = NonNullable<Scenario['waves']>[number];

/** What a scenario says of a band's size; what it leaves out is none. */
const sizes = (wave: Exclude<Wave, { kind: 'sea' }>) => ({
  surge: wave.surge_mps2,
  sway: wave.sway_mps2 ?? 0,
  heave: wave.heave_mps2 ?? 0,
  roll: wave.roll_deg ?? 0,
  pitch: wave.pitch_deg ?? 0,
  yaw: wave.yaw_deg ?? 0,
});

const travelOf = (wave: Wave): number => ((wave.from_deg ?? 0) + 180) * RADIANS;

/** Swell: a band of waves that comes from one side, all the time or from one time to another. */
export const swellOf = (wave: Extract<Wave, { kind: 'swell' }>, random: Random): Waves => {
  const [fromS, toS] = [wave.from_s ?? 0, wave.to_s ?? Number.POSITIVE_INFINITY];
  const strength = (atS: number) => (atS >= fromS && atS <= toS ? 1 : 0);
  const octaves = wave.octaves ?? BAND_SETTINGS.octaves;
  return bandOf({ ...sizes(wave), hz: wave.hz, octaves, strength }, travelOf(wave), random);
};

/** The wake of a passing boat: one train, its longest waves first, that swells and dies away. */
export const wakeOf = (wave: Extract<Wave, { kind: 'wake' }>, random: Random): Waves => {
  const { gravityMps2, chirp } = BAND_SETTINGS;
  const { surge, sway, heave, roll, pitch, yaw } = sizes(wave);
  const travel = travelOf(wave);
  const omega = 2 * Math.PI * wave.hz;
  const waveNumber = (omega * omega) / gravityMps2;
  const first = 2 * Math.PI * random.uniform();
  return (atS, eastM, northM, headingRad): WaveMotion => {
    const share = (atS - wave.at_s) / wave.length_s;
    if (share <= 0 || share >= 1) return { surge: 0, sway: 0, heave: 0, roll: 0, pitch: 0, yaw: 0 };
    const height = Math.SQRT2 * Math.sin(Math.PI * share) ** 2;
    const sinceS = atS - wave.at_s;
    const along = eastM * Math.sin(travel) + northM * Math.cos(travel);
    const angle = omega * sinceS * (1 + chirp * (share - 1) * 0.5) - waveNumber * along + first;
    const [inPhase, across] = [height * Math.cos(angle), height * Math.sin(angle)];
    const [meeting, beam] = [Math.cos(headingRad - travel), Math.sin(headingRad - travel)];
    return {
      surge: surge * meeting * across,
      sway: sway * beam * across,
      heave: heave * inPhase,
      roll: roll * RADIANS * beam * across,
      pitch: pitch * RADIANS * meeting * across,
      yaw: yaw * RADIANS * beam * inPhase,
    };
  };
};
