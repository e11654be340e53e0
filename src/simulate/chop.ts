import type { Scenario } from '../contract/scenario.js';
import type { Random } from './random.js';
import type { Waves } from './wave-motion.js';

/** What the sum of waves is made of. */
export const CHOP_SETTINGS = Object.freeze({
  /** Waves in the sum; eight do not repeat within an outing. */
  waves: 8,
  /** sd of their frequencies / the mean frequency: wind chop of a short fetch is narrow. */
  spread: 0.12,
  hz: 0.6,
  gravityMps2: 9.80665,
});

const RADIANS = Math.PI / 180;

/**
 * Chop as a sum of deep-water waves, wave number ω²/g (linear theory: Lamb, Hydrodynamics, §229), so that a boat
 * that heads into it meets it faster: 0.5 Hz at 5 m/s becomes 1.30 Hz.
 */
export const chopOf = (chop: NonNullable<Scenario['chop']>, random: Random): Waves => {
  const set = CHOP_SETTINGS;
  const travel = ((chop.from_deg ?? 0) + 180) * RADIANS;
  const [east, north] = [Math.sin(travel), Math.cos(travel)];
  const omega = Array.from({ length: set.waves }, () => {
    const hz = (chop.hz ?? set.hz) * Math.max(0.4, 1 + set.spread * random.normal());
    return 2 * Math.PI * hz;
  });
  const wave = omega.map((value) => (value * value) / set.gravityMps2);
  const phase = omega.map(() => 2 * Math.PI * random.uniform());
  const each = Math.sqrt(2 / set.waves);
  const [pitchRad, rollRad] = [(chop.pitch_deg ?? 0) * RADIANS, (chop.roll_deg ?? 0) * RADIANS];
  return (atS, eastM, northM, headingRad) => {
    const along = eastM * east + northM * north;
    let [inPhase, across] = [0, 0];
    for (let i = 0; i < set.waves; i++) {
      const angle = omega[i]! * atS - wave[i]! * along + phase[i]!;
      inPhase += Math.cos(angle);
      across += Math.sin(angle);
    }
    inPhase *= each;
    across *= each;
    const meeting = Math.cos(headingRad - travel);
    const beam = Math.sin(headingRad - travel);
    return {
      surge: chop.surge_mps2 * meeting * across,
      sway: 0,
      heave: (chop.heave_mps2 ?? 0) * inPhase,
      roll: rollRad * beam * across,
      pitch: pitchRad * meeting * across,
      yaw: 0,
    };
  };
};
