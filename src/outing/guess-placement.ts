import type { Interval } from '../motion/index.js';
import {
  type Channel,
  excerptOf,
  type Placement,
  type Recording,
  shortened,
  usualIntervalS,
} from '../recording/index.js';
import { difference, energyOf, evenGrid, quantile } from '../signal/index.js';
import { lowPass } from './low-pass.js';

/** A guess with its reason, for people. */
export interface PlacementGuess {
  readonly placement: Extract<Placement, 'hull' | 'body' | 'unknown'>;
  readonly why: string;
}

/** What a hull does and what bodies do; ranges from two simulators and from body-worn logs of others. */
export const PLACEMENT_SETTINGS = Object.freeze({
  /** Samples a second looked at; 10 to 25: strokes and their first harmonics. */
  gridHz: 20,
  /** The log has at least this many samples a second; 8 to 20. */
  leastHz: 10,
  /** Tilt slower than this is gravity's, Hz; 0.02 to 0.1: well below the slowest stroke. */
  tiltHz: 0.05,
  /** Movement faster than this is not looked at, Hz; 4 to 8. */
  topHz: 5,
  /** Length of a look, s; 5 to 20: some strokes. */
  lookS: 10,
  /** A log longer than so many parts is looked at in as many, spread evenly, each this long, s; 5 to 20 minutes in all. */
  mostParts: 10,
  partS: 60,
  /** Looks with less than this share of the strongest are rest; 0.2 to 0.5. */
  restShare: 0.3,
  /** Looks needed; 3 to 10: half a minute of movement. */
  fewestLooks: 3,
  /** Less movement than this is a logger at rest, m/s² rms; 0.1 to 0.3: a slow canoe shows 0.7. */
  stillMps2: 0.2,
  /** No hull shakes more than this, m/s² rms; 3.5 to 5: an eight at race rate shows 3, a rower's trunk 4 to 5. */
  mostMps2: 4,
  /** A hull surges more than it heaves; a hand that walks heaves 2 times as much; 1.3 to 2. */
  heaveShare: 1.5,
  /** A strongly surging hull sways less than this share of it; 0.3 to 0.4: a rower's leg shows 0.44. */
  swayShare: 0.35,
  /** … strongly: more than this, m/s² rms; 1 to 1.5: a kayak sways as much as it surges, but both little. */
  strongMps2: 1.2,
  /** No hull turns about faster than this, rad/s rms; 0.6 to 1: a rolling kayak shows 0.4, a wrist 1.5. */
  mostRadPerS: 0.8,
});

/** One look: rms along gravity, along the main horizontal direction and across it, m/s². */
interface Look {
  readonly total: number;
  readonly heave: number;
  readonly surge: number;
  readonly sway: number;
}

const GRAVITY_AXES = [0, 1, 2] as const;

/** Largest and smaller eigenvalue of a symmetric 2 by 2 matrix. */
const eigenvalues = (xx: number, xy: number, yy: number): readonly [number, number] => {
  const [middle, spread] = [(xx + yy) / 2, Math.hypot((xx - yy) / 2, xy)];
  return [middle + spread, Math.max(0, middle - spread)];
};

/** Two unit vectors square to `up` and to one another. */
const acrossOf = (up: readonly number[]): readonly [readonly number[], readonly number[]] => {
  const [x, y, z] = up as [number, number, number];
  const least = Math.abs(x) < 0.6 ? [1, 0, 0] : [0, 1, 0];
  const share = least[0]! * x + least[1]! * y;
  const raw = GRAVITY_AXES.map((k) => least[k]! - share * up[k]!);
  const size = Math.hypot(...raw);
  const first = raw.map((value) => value / size) as [number, number, number];
  return [first, [y * first[2] - z * first[1], z * first[0] - x * first[2], x * first[1] - y * first[0]]];
};

const sumWithin = (values: Float64Array, from: number, to: number): number => {
  let sum = 0;
  for (let i = from; i < to; i++) sum += values[i]!;
  return sum;
};

/**
 * One look from `from` up to, not including, `to`.
 * @param raw what the axes measured, gravity and all
 * @param moving the same without tilt
 */
const lookAt = (
  raw: readonly Float64Array[],
  moving: readonly Float64Array[],
  from: number,
  to: number,
): Look | null => {
  const sums = raw.map((column) => sumWithin(column, from, to));
  const weight = Math.hypot(...sums);
  if (weight === 0) return null;
  const up = sums.map((value) => value / weight);
  const [first, second] = acrossOf(up);
  let heave = 0;
  let xx = 0;
  let xy = 0;
  let yy = 0;
  for (let i = from; i < to; i++) {
    let u = 0;
    let x = 0;
    let y = 0;
    for (let k = 0; k < GRAVITY_AXES.length; k++) {
      const value = moving[k]![i]!;
      u += value * up[k]!;
      x += value * first[k]!;
      y += value * second[k]!;
    }
    heave += u * u;
    xx += x * x;
    xy += x * y;
    yy += y * y;
  }
  const [surge, sway] = eigenvalues(xx, xy, yy);
  const rms = (sum: number) => Math.sqrt(sum / (to - from));
  return { total: rms(heave + xx + yy), heave: rms(heave), surge: rms(surge), sway: rms(sway) };
};

const looksOf = (acceleration: Channel): Look[] => {
  const { gridHz, tiltHz, topHz, lookS } = PLACEMENT_SETTINGS;
  const grid = evenGrid(acceleration.atS, acceleration.columns, 1 / gridHz, 1);
  const moving = grid.columns.map((column) =>
    difference(lowPass(column, topHz, gridHz), lowPass(column, tiltHz, gridHz)),
  );
  const size = lookS * gridHz;
  const looks: Look[] = [];
  for (let from = 0; from + size <= grid.mask.length; from += size) {
    if (grid.mask.subarray(from, from + size).includes(1)) continue;
    const look = lookAt(grid.columns, moving, from, from + size);
    if (look !== null) looks.push(look);
  }
  return looks;
};

/** What is looked at: all of a short log, and of a long one parts with as many samples between them. */
const partsOf = ({ atS }: Channel, usualS: number): Interval[] => {
  const { mostParts, partS } = PLACEMENT_SETTINGS;
  if (atS.length * usualS <= mostParts * partS) return [{ fromS: atS[0]!, toS: atS[atS.length - 1]! }];
  return Array.from({ length: mostParts }, (_, i) => {
    const fromS = atS[Math.floor((i * atS.length) / mostParts)]!;
    return { fromS, toS: fromS + partS };
  });
};

/** How fast a sensor turns about, rad/s rms. */
const turningOf = (rotation: Channel | null | undefined): number => {
  if (!rotation) return 0;
  let sum = 0;
  for (const column of rotation.columns) sum += energyOf(column);
  return Math.sqrt(sum / rotation.atS.length);
};

const UNKNOWN = (why: string): PlacementGuess => ({ placement: 'unknown', why });

/**
 * Where an accelerometer sat, guessed from how it moved: a hull surges, and heaves, sways and turns little; a
 * wrist or a trunk does not move like a hull. What of a body it was worn on cannot be known.
 */
export const guessPlacement = (recording: Recording): PlacementGuess => {
  const set = PLACEMENT_SETTINGS;
  const { acceleration, rotation } = recording.channels;
  const usualS = acceleration === undefined ? null : usualIntervalS(acceleration.atS);
  if (acceleration === undefined || usualS === null || usualS > 1 / set.leastHz)
    return UNKNOWN(`its accelerometer is sampled more slowly than ${set.leastHz} Hz`);
  const parts = partsOf(acceleration, usualS);
  const seen = excerptOf(acceleration, parts);
  const all = seen === null ? [] : looksOf(shortened(seen, 2 * set.lookS).channel);
  if (all.length === 0) return UNKNOWN('the log is too short to show it');
  const strongest = quantile(
    all.map(({ total }) => total),
    0.9,
  );
  const looks = all.filter(({ total }) => total >= set.restShare * strongest);
  if (strongest < set.stillMps2 || looks.length < set.fewestLooks) return UNKNOWN('the logger hardly moved');
  const high = quantile(
    looks.map(({ total }) => total),
    0.9,
  );
  const of = (axis: 'heave' | 'surge' | 'sway') =>
    quantile(
      looks.map((look) => look[axis]),
      0.5,
    );
  const [heave, surge, sway] = [of('heave'), of('surge'), of('sway')];
  if (turningOf(rotation && excerptOf(rotation, parts)) > set.mostRadPerS)
    return { placement: 'body', why: 'it turned about faster than a hull does' };
  if (high > set.mostMps2)
    return { placement: 'body', why: `it was shaken by ${high.toFixed(1)} m/s², more than a hull is` };
  if (heave > set.heaveShare * surge)
    return { placement: 'body', why: 'it moved up and down more than along' };
  if (surge > set.strongMps2 && sway > set.swayShare * surge)
    return { placement: 'body', why: 'it swayed more than a hull does' };
  if (heave > surge || sway > surge) return UNKNOWN('waves or turns hide how it moved');
  return { placement: 'hull', why: 'it surged much and swayed little' };
};
