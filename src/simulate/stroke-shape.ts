import type { CraftFamily } from '../units/craft.js';

/**
 * How one family moves its boat: the crew's motion on the hull and the force of the blades over the drive.
 * Shapes are smooth curves chosen to have the features that measured boats show, not fits to one boat.
 */
export interface StrokeShape {
  /** Travel of the crew's moving mass along the hull in the drive, m; to the bow above 0. */
  readonly travelM: number;
  /** Share of the crew's mass that moves: trunk, head, arms and thighs, not feet. */
  readonly movingShare: number;
  /** How early the drive's, and how late the recovery's, crew speed peaks; 0 is even, below 1. */
  readonly skewDrive: number;
  readonly skewRecovery: number;
  /** How early the blade force peaks; 0 is the middle of the drive, below 1. */
  readonly skewForce: number;
  /** Deceleration of the whole system as the blade enters, at reference speed, m/s². */
  readonly entryMps2: number;
  /** How long the entry lasts, s. */
  readonly entryS: number;
  /** Drive as a share of the cycle: at `slowSpm`, at `fastSpm`, straight between and held beyond. */
  readonly slowSpm: number;
  readonly slowShare: number;
  readonly fastSpm: number;
  readonly fastShare: number;
  /** Amplitudes of the hull's attitude, degrees: pitch with the crew's travel; roll and yaw a side. */
  readonly pitchDeg: number;
  readonly rollDeg: number;
  readonly yawDeg: number;
  /** True where strokes alternate between the sides. */
  readonly alternates: boolean;
}

/** Drive shares of rowing: 0.36 at 20 spm and 0.48 at 38 (value from memory; common practice 35-40 % and near 50 %). */
export const STROKE_SHAPES: Readonly<Record<CraftFamily, StrokeShape>> = Object.freeze({
  rowing: {
    travelM: 0.6,
    movingShare: 0.8,
    skewDrive: 0.75,
    skewRecovery: 0.55,
    skewForce: 0.2,
    entryMps2: 3,
    entryS: 0.09,
    slowSpm: 20,
    slowShare: 0.36,
    fastSpm: 38,
    fastShare: 0.48,
    pitchDeg: 0.25,
    rollDeg: 0.4,
    yawDeg: 0.1,
    alternates: false,
  },
  kayak: {
    travelM: 0.01,
    movingShare: 0.5,
    skewDrive: 0.3,
    skewRecovery: 0.3,
    skewForce: 0.3,
    entryMps2: 1.6,
    entryS: 0.09,
    slowSpm: 60,
    slowShare: 0.66,
    fastSpm: 130,
    fastShare: 0.74,
    pitchDeg: 0.15,
    rollDeg: 2.5,
    yawDeg: 1,
    alternates: true,
  },
  canoe: {
    travelM: -0.03,
    movingShare: 0.5,
    skewDrive: 0.3,
    skewRecovery: 0.2,
    skewForce: 0.25,
    entryMps2: 2,
    entryS: 0.1,
    slowSpm: 35,
    slowShare: 0.5,
    fastSpm: 75,
    fastShare: 0.62,
    pitchDeg: 0.6,
    rollDeg: 1.5,
    yawDeg: 0.6,
    alternates: false,
  },
  dragon: {
    travelM: -0.03,
    movingShare: 0.5,
    skewDrive: 0.3,
    skewRecovery: 0.2,
    skewForce: 0.25,
    entryMps2: 2,
    entryS: 0.1,
    slowSpm: 55,
    slowShare: 0.52,
    fastSpm: 90,
    fastShare: 0.6,
    pitchDeg: 0.3,
    rollDeg: 0.4,
    yawDeg: 0.1,
    alternates: false,
  },
});

/** Drive as a share of the cycle at a rate. */
export const driveShare = (shape: StrokeShape, rateSpm: number): number => {
  const place = (rateSpm - shape.slowSpm) / (shape.fastSpm - shape.slowSpm);
  const within = Math.max(-0.5, Math.min(1.2, place));
  return shape.slowShare + within * (shape.fastShare - shape.slowShare);
};

/** A bump over 0 to 1, sin(π g(x)) with g(x) = x + (skew/π) sin πx: its peak early for skew above 0. */
export interface Bump {
  readonly at: (x: number) => number;
  readonly slope: (x: number) => number;
  /** Area under the bump over 0 to 1. */
  readonly area: number;
}

/** Strips of Simpson's rule; the bumps are smooth and 1e-9 is reached well before. */
const STRIPS = 400;

const simpson = (of: (x: number) => number): number => {
  let sum = of(0) + of(1);
  for (let i = 1; i < STRIPS; i++) sum += of(i / STRIPS) * (i % 2 === 1 ? 4 : 2);
  return sum / (3 * STRIPS);
};

/** The bump of a skew, -1 to 1 exclusive. */
export const bump = (skew: number): Bump => {
  const at = (x: number) => Math.sin(Math.PI * x + skew * Math.sin(Math.PI * x));
  const slope = (x: number) =>
    Math.cos(Math.PI * x + skew * Math.sin(Math.PI * x)) * Math.PI * (1 + skew * Math.cos(Math.PI * x));
  return { at, slope, area: simpson(at) };
};

/** Blade force over the drive as a share of its peak: the bump to the power 3/2, which begins and ends softly. */
export const forcePulse = (skew: number): { readonly at: (x: number) => number; readonly area: number } => {
  const base = bump(skew);
  const at = (x: number) => {
    const height = Math.max(0, base.at(x));
    return height * Math.sqrt(height);
  };
  return { at, area: simpson(at) };
};
