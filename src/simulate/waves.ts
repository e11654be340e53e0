import type { Scenario } from '../contract/scenario.js';
import { swellOf, wakeOf } from './band.js';
import { chopOf } from './chop.js';
import type { CraftModel } from './craft-model.js';
import { hullSize } from './hull-response.js';
import { randomFrom } from './random.js';
import { type Ride, rideOf } from './ride.js';
import { seaOf } from './sea.js';
import { summed, type Waves } from './wave-motion.js';

/**
 * Everything but the crew that moves the hull: chop, swell, wakes, a sea, and whoever moves a boat that nobody rows.
 * @returns null where nothing does
 */
export const wavesOf = (scenario: Scenario, model: CraftModel, rides: readonly Ride[]): Waves | null => {
  const { seed, chop, waves = [] } = scenario;
  const sources = [
    ...(chop ? [chopOf(chop, randomFrom(seed, 'chop'))] : []),
    ...waves.map((wave, i) => {
      const random = randomFrom(seed, `waves ${i}`);
      if (wave.kind === 'swell') return swellOf(wave, random);
      return wave.kind === 'wake' ? wakeOf(wave, random) : seaOf(wave, hullSize(model), random);
    }),
    ...(rides.length > 0 ? [rideOf(rides, randomFrom(seed, 'ride'))] : []),
  ];
  return sources.length > 0 ? summed(sources) : null;
};
