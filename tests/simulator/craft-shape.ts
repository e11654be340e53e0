import { type Craft, craftFamily } from '../../src/units/craft.js';
import type { Pulse } from './pulse.js';

/** What a craft's hull does in a stroke, before variation. Heights at the reference rate. */
interface CraftShape {
  readonly referenceSpm: number;
  /** Mean speed at the reference rate, m/s. */
  readonly speedMps: number;
  /** Depth and width of the dip at the catch. */
  readonly dipMps2: number;
  readonly dipS: number;
  /** Heights of the two humps of the drive, and of the run on the recovery. */
  readonly earlyMps2: number;
  readonly lateMps2: number;
  readonly runMps2: number;
  /** Hull pitch over the cycle, degrees to each side. */
  readonly pitchDeg: number;
  /** Roll to each side in craft that are paddled on both, degrees. */
  readonly rollDeg: number;
}

const row = (
  speedMps: number,
  dipMps2: number,
  dipS: number,
  earlyMps2: number,
  lateMps2: number,
  runMps2: number,
): CraftShape => ({
  referenceSpm: 34,
  speedMps,
  dipMps2,
  dipS,
  earlyMps2,
  lateMps2,
  runMps2,
  pitchDeg: 0.35,
  rollDeg: 0.2,
});

const ROWED: Readonly<Partial<Record<Craft, CraftShape>>> = {
  '1x': row(4.5, 4.6, 0.085, 2.0, 2.4, 0.9),
  '2x': row(4.9, 5.0, 0.08, 2.3, 2.6, 1.0),
  '2-': row(4.8, 5.2, 0.08, 2.2, 2.7, 1.0),
  '4x': row(5.4, 5.8, 0.075, 2.7, 2.8, 1.2),
  '4-': row(5.3, 5.9, 0.075, 2.6, 2.9, 1.2),
  '4+': row(5.0, 5.6, 0.075, 2.5, 2.7, 1.1),
  '8+': row(5.7, 6.6, 0.07, 3.0, 3.1, 1.3),
};

const PADDLED: Readonly<Record<'kayak' | 'canoe' | 'dragon', CraftShape>> = {
  kayak: {
    referenceSpm: 100,
    speedMps: 4.3,
    dipMps2: 0.95,
    dipS: 0.055,
    earlyMps2: 0.75,
    lateMps2: 0.35,
    runMps2: 0,
    pitchDeg: 0.25,
    rollDeg: 2.5,
  },
  canoe: {
    referenceSpm: 55,
    speedMps: 3.4,
    dipMps2: 1.3,
    dipS: 0.1,
    earlyMps2: 1.2,
    lateMps2: 0.6,
    runMps2: 0.1,
    pitchDeg: 0.9,
    rollDeg: 1,
  },
  dragon: {
    referenceSpm: 75,
    speedMps: 3.6,
    dipMps2: 1.1,
    dipS: 0.075,
    earlyMps2: 1.1,
    lateMps2: 0.4,
    runMps2: 0,
    pitchDeg: 0.3,
    rollDeg: 0.4,
  },
};

/** The shape of a craft's stroke. */
export const craftShape = (craft: Craft): CraftShape => {
  const family = craftFamily(craft);
  return family === 'rowing' ? (ROWED[craft] ?? ROWED['1x']!) : PADDLED[family];
};

/** Mean speed of a craft at a rate, m/s: not the cube root that the analysis uses as its reference line. */
export const speedAtRate = (craft: Craft, rateSpm: number): number => {
  const shape = craftShape(craft);
  return shape.speedMps * (0.52 + 0.48 * (rateSpm / shape.referenceSpm) ** 0.75);
};

/** Share of the cycle spent on the drive. */
const driveShare = (craft: Craft, rateSpm: number): number => {
  if (craftFamily(craft) !== 'rowing') return 0.62;
  return Math.min(0.54, Math.max(0.3, 0.355 + 0.0075 * (rateSpm - 20)));
};

/** How a stroke is made. */
export interface StrokeMake {
  readonly craft: Craft;
  readonly periodS: number;
  /** Strength of the drive, 1 as usual. */
  readonly strength: number;
  /** Strength of the dip at the catch; 0 for a stroke from rest. */
  readonly dip: number;
  /** Slower or quicker drive than usual, about 1. */
  readonly quickness: number;
  /** Seconds of the cycle held still after the finish. */
  readonly holdS: number;
  /** False where the crew sits still after the finish. */
  readonly recovers: boolean;
  /** -1 backs the boat down. */
  readonly way: 1 | -1;
}

/** Time from the catch to the end of the drive, s. */
export const driveTimeS = (make: StrokeMake): number => {
  const movingS = make.periodS - make.holdS;
  return movingS * Math.min(0.6, driveShare(make.craft, 60 / movingS) * make.quickness);
};

/** The pulses of one stroke, about its catch. */
export const pulsesOf = (make: StrokeMake): Pulse[] => {
  const shape = craftShape(make.craft);
  const movingS = make.periodS - make.holdS;
  const relative = 60 / movingS / shape.referenceSpm;
  const driveS = driveTimeS(make);
  const recoveryS = movingS - driveS;
  const push = make.strength * relative ** 1.1 * make.way;
  const dipS = shape.dipS * relative ** -0.4;
  const pulses: Pulse[] = [
    {
      atS: 0,
      heightMps2: -shape.dipMps2 * make.dip * relative ** 1.4,
      riseS: dipS * 1.35,
      fallS: dipS * 0.8,
    },
    { atS: 0.38 * driveS, heightMps2: shape.earlyMps2 * push, riseS: 0.13 * driveS, fallS: 0.2 * driveS },
    { atS: 0.74 * driveS, heightMps2: shape.lateMps2 * push, riseS: 0.16 * driveS, fallS: 0.1 * driveS },
    {
      atS: driveS * 1.03,
      heightMps2: -0.22 * shape.lateMps2 * push,
      riseS: 0.07 * driveS,
      fallS: 0.12 * driveS,
    },
  ];
  if (make.recovers && shape.runMps2 > 0)
    pulses.push({
      atS: driveS + make.holdS + 0.38 * recoveryS,
      heightMps2: shape.runMps2 * relative * make.way,
      riseS: 0.17 * recoveryS,
      fallS: 0.26 * recoveryS,
    });
  return pulses;
};
