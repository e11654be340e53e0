import type { ChannelDraft } from '../../src/recording/index.js';
import { valueAt } from './grid.js';
import { type HullMotion, STEP_S } from './hull.js';
import type { Random } from './random.js';
import type { Disturbance } from './swell.js';

/** Angles that turn the hull's axes into the sensor's, degrees. */
export interface Mount {
  readonly yawDeg: number;
  readonly pitchDeg: number;
  readonly rollDeg: number;
}

/** An accelerometer logger with its faults. */
export interface ImuAsk {
  readonly rateHz: number;
  readonly mount: Mount;
  /** Put back another way round at a time. */
  readonly remount: { readonly atS: number; readonly mount: Mount } | null;
  readonly noiseSdMps2: number;
  /** sd of the bias of each axis, and of its change as the sensor warms, m/s². */
  readonly biasSdMps2: number;
  readonly warmingSdMps2: number;
  /** Smallest step, m/s². */
  readonly quantumMps2: number;
  /** Largest value that it can show, m/s². */
  readonly rangeMps2: number;
  /** sd of a sample's true time about its stamp, s. */
  readonly jitterSdS: number;
  /** Share of samples lost, one here and one there, and in bursts of 0.1 to 0.5 s. */
  readonly lost: number;
  readonly lostInBursts: number;
  /** Metres above the pitch axis. */
  readonly leverM: number;
  /** True time of the first sample, s, and how much its clock runs fast, ppm. */
  readonly startS: number;
  readonly driftPpm: number;
  /** Logs turn rates too. */
  readonly gyro: boolean;
  /** Worn by one of the crew rather than fixed to the hull; null in the hull. */
  readonly wear: Wear | null;
}

/** How a worn logger moves with each stroke, beside the hull. */
export interface Wear {
  /** Half of its way fore and aft, m. */
  readonly reachM: number;
  /** Tilt fore and aft, and turn about the fore-and-aft axis, degrees to each side. */
  readonly pitchDeg: number;
  readonly rollDeg: number;
}

/** A watch, and a box on the back. */
export const WRIST: Wear = { reachM: 0.7, pitchDeg: 30, rollDeg: 55 };
export const BACK: Wear = { reachM: 0.35, pitchDeg: 25, rollDeg: 4 };

const GRAVITY = 9.80665;
const WARMING_S = 700;
const GYRO_NOISE = 0.004;

/** Rows of the matrix that takes hull axes (forward, left, up) to sensor axes. */
const turnOf = ({ yawDeg, pitchDeg, rollDeg }: Mount): number[] => {
  const [y, p, r] = [yawDeg, pitchDeg, rollDeg].map((deg) => (deg * Math.PI) / 180) as [
    number,
    number,
    number,
  ];
  const [cy, sy, cp, sp, cr, sr] = [
    Math.cos(y),
    Math.sin(y),
    Math.cos(p),
    Math.sin(p),
    Math.cos(r),
    Math.sin(r),
  ];
  return [
    cy * cp,
    sy * cp,
    -sp,
    cy * sp * sr - sy * cr,
    sy * sp * sr + cy * cr,
    cp * sr,
    cy * sp * cr + sy * sr,
    sy * sp * cr - cy * sr,
    cp * cr,
  ];
};

/** What the craft's own stroke does to its trim. */
export interface Trim {
  readonly pitchDeg: number;
  readonly rollDeg: number;
  /** Rolls to one side and the other from stroke to stroke. */
  readonly alternates: boolean;
}

const pitchOf = (hull: HullMotion, trim: Trim): Float64Array => {
  const pitch = new Float64Array(hull.cycle.length);
  const size = (trim.pitchDeg * Math.PI) / 180;
  let smooth = 0;
  for (let i = 0; i < pitch.length; i++) {
    const cycle = hull.cycle[i]!;
    const wanted = cycle < 0 ? 0 : size * Math.cos(2 * Math.PI * (cycle - 0.08));
    smooth += (wanted - smooth) * 0.15;
    pitch[i] = smooth;
  }
  return pitch;
};

/** Where a worn logger is on its way, -1 to 1, against the cycle: quick on the drive, slow on the recovery. */
const swingAt = (hull: HullMotion, atS: number): number => {
  const cycle = valueAt(hull.cycle, STEP_S, atS);
  if (cycle < 0) return 1;
  const share = cycle - Math.floor(cycle);
  return Math.cos(2 * Math.PI * (share - 0.06 * Math.sin(2 * Math.PI * share)));
};

/** Specific force seen by a logger that swings with its wearer: forward, left, up. */
const worn = (
  wear: Wear,
  hull: HullMotion,
  atS: number,
  force: readonly [number, number, number],
): [number, number, number] => {
  const h = 0.03;
  const swing = swingAt(hull, atS);
  const bend = (swingAt(hull, atS + h) - 2 * swing + swingAt(hull, atS - h)) / h ** 2;
  // The cycle jumps where a rowing interval begins and ends; a body does not.
  const forward = force[0] - wear.reachM * Math.max(-25, Math.min(25, bend));
  const pitch = (wear.pitchDeg * swing * Math.PI) / 180;
  const roll = (wear.rollDeg * Math.max(0, -swing) * Math.PI) / 180;
  const up = force[2] * Math.cos(pitch) - forward * Math.sin(pitch);
  const along = forward * Math.cos(pitch) + force[2] * Math.sin(pitch);
  return [
    along,
    force[1] * Math.cos(roll) + up * Math.sin(roll),
    up * Math.cos(roll) - force[1] * Math.sin(roll),
  ];
};

/** What the logger writes of a hull's motion, on its own clock. */
export const logImu = (
  ask: ImuAsk,
  hull: HullMotion,
  chop: Disturbance,
  trim: Trim,
  endS: number,
  random: Random,
): { acceleration: ChannelDraft; rotation?: ChannelDraft } => {
  const draw = (sd: number) => [0, 0, 0].map(() => sd * random.normal());
  const bias = draw(ask.biasSdMps2);
  const warming = draw(ask.warmingSdMps2);
  const pitch = pitchOf(hull, trim);
  const scale = 1 + ask.driftPpm * 1e-6;
  const count = Math.max(1, Math.floor((endS - ask.startS) * scale * ask.rateHz));
  const atS = new Float64Array(count);
  const acceleration = [0, 0, 0].map(() => new Float64Array(count));
  const rotation = ask.gyro ? [0, 0, 0].map(() => new Float64Array(count)) : [];
  const rollSize = (trim.rollDeg * Math.PI) / 180;
  let turn = turnOf(ask.mount);
  let burstUntilS = -1;
  let kept = 0;
  let [lastPitch, lastPitchRate, lastRoll, lastHeading] = [0, 0, 0, hull.headingRad[0]!];
  const stepS = 1 / ask.rateHz / scale;
  const write = (columns: readonly Float64Array[], forward: number, left: number, up: number) => {
    for (let axis = 0; axis < 3; axis++)
      columns[axis]![kept] =
        turn[3 * axis]! * forward + turn[3 * axis + 1]! * left + turn[3 * axis + 2]! * up;
  };
  for (let i = 0; i < count; i++) {
    const stamp = i / ask.rateHz;
    const nominalS = ask.startS + stamp / scale;
    if (ask.remount !== null && nominalS >= ask.remount.atS) turn = turnOf(ask.remount.mount);
    const trueS = nominalS + ask.jitterSdS * random.normal();
    const cycle = valueAt(hull.cycle, STEP_S, trueS);
    const side = trim.alternates ? Math.sin(Math.PI * cycle) : Math.sin(2 * Math.PI * cycle);
    const pitchNow = valueAt(pitch, STEP_S, trueS) + valueAt(chop.pitchRad, chop.stepS, trueS);
    const rollNow = (cycle < 0 ? 0 : rollSize * side) + valueAt(chop.rollRad, chop.stepS, trueS);
    const headingNow = valueAt(hull.headingRad, STEP_S, trueS) + valueAt(chop.yawRad, chop.stepS, trueS);
    const pitchRate = (pitchNow - lastPitch) / stepS;
    const lever = i < 2 ? 0 : (0.5 * (pitchRate - lastPitchRate)) / stepS;
    const surge = valueAt(hull.surgeMps2, STEP_S, trueS) + valueAt(chop.surgeMps2, chop.stepS, trueS);
    const forward = surge + GRAVITY * Math.sin(pitchNow) - ask.leverM * Math.max(-3, Math.min(3, lever));
    const left = valueAt(chop.swayMps2, chop.stepS, trueS) - GRAVITY * Math.sin(rollNow);
    const up = GRAVITY * Math.cos(pitchNow) * Math.cos(rollNow) + valueAt(chop.heaveMps2, chop.stepS, trueS);
    // right-handed about forward, left and up: bow up, port down and a turn to starboard are all negative
    const rates = [(lastRoll - rollNow) / stepS, -pitchRate, (lastHeading - headingNow) / stepS] as const;
    lastPitch = pitchNow;
    lastPitchRate = pitchRate;
    lastRoll = rollNow;
    lastHeading = headingNow;
    if (random.uniform() * 0.3 * ask.rateHz < ask.lostInBursts)
      burstUntilS = Math.max(burstUntilS, nominalS + 0.1 + 0.4 * random.uniform());
    if (i > 0 && (random.uniform() < ask.lost || nominalS < burstUntilS)) continue;
    atS[kept] = stamp;
    const seen =
      ask.wear === null ? ([forward, left, up] as const) : worn(ask.wear, hull, trueS, [forward, left, up]);
    write(acceleration, ...seen);
    const warmth = 1 - Math.exp(-stamp / WARMING_S);
    for (let axis = 0; axis < 3; axis++) {
      const column = acceleration[axis]!;
      const exact = column[kept]! + bias[axis]! + warming[axis]! * warmth + ask.noiseSdMps2 * random.normal();
      const stepped = ask.quantumMps2 > 0 ? Math.round(exact / ask.quantumMps2) * ask.quantumMps2 : exact;
      column[kept] = Math.max(-ask.rangeMps2, Math.min(ask.rangeMps2, stepped));
    }
    if (ask.gyro) {
      write(rotation, ...rates);
      for (const column of rotation) column[kept] = column[kept]! + GYRO_NOISE * random.normal();
    }
    kept++;
  }
  const clock = atS.slice(0, kept);
  const channel = (columns: readonly Float64Array[]): ChannelDraft => ({
    atS: clock,
    columns: columns.map((column) => column.slice(0, kept)),
  });
  return { acceleration: channel(acceleration), ...(ask.gyro ? { rotation: channel(rotation) } : {}) };
};
