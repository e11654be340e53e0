import { narrowNoise } from './narrow-noise.js';
import type { Random } from './random.js';
import type { Disturbance } from './swell.js';

/** Who moves a boat that nobody rows. */
export type Mover = 'tow' | 'hands' | 'trailer';

/** Speed at which others move a boat, m/s. */
export const MOVED_MPS: Readonly<Record<Mover, number>> = { tow: 2.2, hands: 1.3, trailer: 10 };

/** Sizes of surge, sway, heave (m/s²), pitch, roll and yaw (rad). */
type Sizes = readonly [number, number, number, number, number, number];

const add = (to: Disturbance, i: number, sizes: Sizes, value: number, turned: number): void => {
  to.surgeMps2[i] = to.surgeMps2[i]! + sizes[0] * value;
  to.swayMps2[i] = to.swayMps2[i]! + sizes[1] * turned;
  to.heaveMps2[i] = to.heaveMps2[i]! + sizes[2] * turned;
  to.pitchRad[i] = to.pitchRad[i]! + sizes[3] * value;
  to.rollRad[i] = to.rollRad[i]! + sizes[4] * turned;
  to.yawRad[i] = to.yawRad[i]! + sizes[5] * value;
};

/** Steps of people who carry a boat: their footfall is a pulse, so the fall shows harmonics, and no two are alike. */
const carry = (to: Disturbance, from: number, until: number, random: Random): void => {
  let atS = from * to.stepS;
  let side = 1;
  const stepS = 0.52 + 0.06 * random.uniform();
  while (atS < until * to.stepS) {
    const size = 1 + 0.15 * random.normal();
    const lengthS = stepS * (1 + 0.04 * random.normal());
    const first = Math.round(atS / to.stepS);
    for (let i = first; i < Math.min(until, first + lengthS / to.stepS); i++) {
      const share = ((i - first) * to.stepS) / lengthS;
      const sine = Math.sin(2 * Math.PI * share);
      const fall = Math.exp(-(((share - 0.15) / 0.08) ** 2));
      to.heaveMps2[i] = to.heaveMps2[i]! + size * (1.8 * fall - 0.9 * Math.cos(2 * Math.PI * share));
      to.surgeMps2[i] = to.surgeMps2[i]! + size * (0.5 * sine - 0.4 * fall);
      to.swayMps2[i] = to.swayMps2[i]! + 0.6 * side * size * Math.sin(Math.PI * share);
      to.rollRad[i] = to.rollRad[i]! + 0.03 * side * size * Math.sin(Math.PI * share);
      to.pitchRad[i] = to.pitchRad[i]! + 0.005 * size * sine;
    }
    side = -side;
    atS += lengthS;
  }
};

/** Bands in which a boat shakes that is towed or driven. */
const SHAKING: Readonly<Record<'tow' | 'trailer', readonly { hz: number; octaves: number; sizes: Sizes }[]>> =
  {
    tow: [
      { hz: 0.4, octaves: 0.6, sizes: [0.18, 0.05, 0.1, 0.004, 0.02, 0.02] },
      { hz: 1.2, octaves: 0.5, sizes: [0.08, 0.1, 0.3, 0.006, 0.01, 0.003] },
    ],
    trailer: [
      { hz: 2.2, octaves: 0.5, sizes: [0.3, 0.35, 1.4, 0.01, 0.012, 0.003] },
      { hz: 12, octaves: 0.8, sizes: [0.6, 0.5, 1.5, 0.001, 0.001, 0] },
      { hz: 0.12, octaves: 1.2, sizes: [0.5, 0.5, 0.05, 0.01, 0.01, 0.03] },
    ],
  };

/** Lay on the hull's disturbance what moving it by others does, from one time to another. */
export const addRide = (to: Disturbance, by: Mover, fromS: number, toS: number, random: Random): void => {
  const from = Math.max(0, Math.round(fromS / to.stepS));
  const until = Math.min(to.surgeMps2.length, Math.round(toS / to.stepS));
  if (by === 'hands') {
    carry(to, from, until, random);
    return;
  }
  for (const { hz, octaves, sizes } of SHAKING[by]) {
    const noise = narrowNoise(hz, octaves, toS - fromS + 1, random);
    for (let i = from; i < until; i++) {
      const sinceS = i * to.stepS - fromS;
      add(to, i, sizes, noise.at(sinceS), noise.turnedAt(sinceS));
    }
  }
  if (by === 'trailer')
    // a driver brakes and turns now and then
    for (let atS = fromS + 10; atS < toS; atS += 15 + 30 * random.uniform()) {
      const size = 1.5 * random.normal();
      for (let i = Math.round(atS / to.stepS); i < Math.min(until, (atS + 4) / to.stepS); i++)
        to.surgeMps2[i] = to.surgeMps2[i]! + size * Math.sin((Math.PI * (i * to.stepS - atS)) / 4) ** 2;
    }
};
