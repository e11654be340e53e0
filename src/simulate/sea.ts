import type { Scenario } from '../contract/scenario.js';
import { type HullSize, hullResponse } from './hull-response.js';
import type { Random } from './random.js';
import type { WaveMotion, Waves } from './wave-motion.js';

type Sea = Extract<NonNullable<Scenario['waves']>[number], { kind: 'sea' }>;

/** What the sum of waves of a sea is made of. */
export const SEA_SETTINGS = Object.freeze({
  waves: 60,
  /** Bounds of the frequencies / the peak's: they hold 98 % of a Pierson-Moskowitz sea's elevation. */
  lowest: 0.65,
  highest: 3.2,
  gravityMps2: 9.80665,
  /** Peak enhancement of JONSWAP: the mean of the experiment. */
  enhancement: 3.3,
  /** sd of the single waves' directions about the main one, degrees, where the scenario is silent. */
  spreadDeg: 20,
  /** The hull's answer is worked out anew so often, s: it changes with heading and speed. */
  answerS: 0.5,
});

const RADIANS = Math.PI / 180;

/**
 * Shape of a sea's spectrum of elevation, without its constant: Pierson & Moskowitz 1964 (J. Geophys. Res.
 * 69:5181), S ~ f^-5 exp(-5/4 (f/fp)^-4), and JONSWAP, the same times γ^exp(-(f/fp - 1)²/(2σ²)) (Hasselmann et
 * al. 1973, Deutsche Hydrographische Zeitschrift, A8 12).
 */
export const seaSpectrum = (hz: number, peakHz: number, spectrum: Sea['spectrum']): number => {
  const moskowitz = hz ** -5 * Math.exp(-1.25 * (peakHz / hz) ** 4);
  if (spectrum === 'pierson_moskowitz') return moskowitz;
  const sigma = hz <= peakHz ? 0.07 : 0.09;
  const peak = Math.exp(-((hz / peakHz - 1) ** 2) / (2 * sigma * sigma));
  return moskowitz * SEA_SETTINGS.enhancement ** peak;
};

/**
 * A sea of a significant height, through the hull's response: a sum of deep-water waves of random phase.
 * @param hull size of the hull
 */
export const seaOf = (sea: Sea, hull: HullSize, random: Random): Waves => {
  const set = SEA_SETTINGS;
  const travel = (sea.from_deg + 180) * RADIANS;
  const spread = (sea.spread_deg ?? set.spreadDeg) * RADIANS;
  const ratio = (set.highest / set.lowest) ** (1 / set.waves);
  const waves = Array.from({ length: set.waves }, (_, i) => {
    const low = sea.peak_hz * set.lowest * ratio ** i;
    const hz = low * ratio ** random.uniform();
    const omega = 2 * Math.PI * hz;
    return {
      power: seaSpectrum(hz, sea.peak_hz, sea.spectrum) * low * (ratio - 1),
      omega,
      waveNumber: (omega * omega) / set.gravityMps2,
      travel: travel + spread * random.normal(),
      phase: 2 * Math.PI * random.uniform(),
    };
  });
  const total = waves.reduce((sum, { power }) => sum + power, 0);
  // the sd of the elevation is a quarter of the significant height
  const height = waves.map(({ power }) => (sea.height_m / 4) * Math.sqrt((2 * power) / total));
  let answers: readonly WaveMotion[] = [];
  let [answeredS, lastEast, lastNorth] = [Number.NEGATIVE_INFINITY, 0, 0];
  return (atS, eastM, northM, headingRad): WaveMotion => {
    const sinceS = atS - answeredS;
    if (!(sinceS >= 0 && sinceS < set.answerS)) {
      const known = sinceS >= set.answerS && sinceS < 2 * set.answerS;
      const speedMps = known ? Math.hypot(eastM - lastEast, northM - lastNorth) / sinceS : 0;
      answers = waves.map((wave) => hullResponse(wave.omega, headingRad - wave.travel, speedMps, hull));
      [answeredS, lastEast, lastNorth] = [atS, eastM, northM];
    }
    let [surge, sway, heave, roll, pitch, yaw] = [0, 0, 0, 0, 0, 0];
    for (let i = 0; i < waves.length; i++) {
      const wave = waves[i]!;
      const answer = answers[i]!;
      const along = eastM * Math.sin(wave.travel) + northM * Math.cos(wave.travel);
      const angle = wave.omega * atS - wave.waveNumber * along + wave.phase;
      const [cosine, sine] = [height[i]! * Math.cos(angle), height[i]! * Math.sin(angle)];
      surge += answer.surge * sine;
      sway += answer.sway * sine;
      heave += answer.heave * cosine;
      roll += answer.roll * sine;
      pitch += answer.pitch * sine;
      yaw += answer.yaw * cosine;
    }
    return { surge, sway, heave, roll, pitch, yaw };
  };
};
