import { type Channel, usualIntervalS } from '../recording/index.js';
import { butterworth, difference, type Filter, meanSquare, median, zeroPhase } from '../signal/index.js';
import { LEVEL_SETTINGS, SIGNAL_SETTINGS } from './stroke-settings.js';

const GRAVITY_MPS2 = 9.80665;

/** Rates of rotation that belong to an accelerometer's samples, one for each; null where they were not logged with them. */
export const rotationOf = (acceleration: Channel, rotation: Channel | undefined): Channel | null =>
  rotation !== undefined &&
  rotation.atS.length === acceleration.atS.length &&
  rotation.atS.every((at, i) => at === acceleration.atS[i])
    ? rotation
    : null;

/**
 * Quick tilt about one axis, times the upright: the running integral of `p · up - q · down`, its slow part left out.
 * @param p rate of rotation, rad/s, and the upright's share `up` that it turns
 * @param q the other one, and `down`
 * @param atS times, s
 * @param slow filter that keeps what is slow, and its reach at the ends, samples
 */
const quickTilt = (
  p: Float64Array,
  up: number,
  q: Float64Array,
  down: number,
  atS: Float64Array,
  slow: Filter,
  reach: number,
): Float64Array => {
  const tilt = new Float64Array(atS.length);
  for (let i = 1; i < tilt.length; i++) {
    const stepS = Math.min(atS[i]! - atS[i - 1]!, LEVEL_SETTINGS.longestStepS);
    const now = p[i]! * up - q[i]! * down;
    const before = p[i - 1]! * up - q[i - 1]! * down;
    tilt[i] = tilt[i - 1]! + (stepS * (now + before)) / 2;
  }
  return difference(tilt, zeroPhase(tilt, slow, reach));
};

/** Specific force along one axis without the gravity that a tilt turns into it. */
const withoutTilt = (column: Float64Array, tilt: Float64Array): Float64Array => {
  const made = new Float64Array(column.length);
  for (let i = 0; i < made.length; i++) made[i] = column[i]! - GRAVITY_MPS2 * tilt[i]!;
  return made;
};

/**
 * Specific force with the share of gravity that quick tilting turns into each axis taken out: a fixed vector g
 * seen from a frame that turns at w changes by -w x g (e.g. Titterton & Weston, Strapdown Inertial Navigation
 * Technology, 3.5), and small tilts add up. Slow tilt is left to the filters: the gyro drifts.
 * @param acceleration three components, m/s²
 * @param rotation right-handed about the same axes, rad/s, sample by sample
 * @returns the channel as it came where gravity does not show, or the sensor turns too far to call it tilt
 */
export const tiltCorrected = (acceleration: Channel, rotation: Channel): Channel => {
  const { atS, columns } = acceleration;
  const intervalS = usualIntervalS(atS);
  const means = columns.map((column) => median(column));
  const size = Math.hypot(...means);
  if (intervalS === null || size < SIGNAL_SETTINGS.leastGravityMps2) return acceleration;
  const [ux, uy, uz] = means.map((mean) => mean / size) as [number, number, number];
  const [wx, wy, wz] = rotation.columns as [Float64Array, Float64Array, Float64Array];
  const slow = butterworth(2, Math.min(0.9, 2 * LEVEL_SETTINGS.highPassHz * intervalS));
  const reach = Math.round(1 / (LEVEL_SETTINGS.highPassHz * intervalS));
  const tilts = [
    quickTilt(wz, uy, wy, uz, atS, slow, reach),
    quickTilt(wx, uz, wz, ux, atS, slow, reach),
    quickTilt(wy, ux, wx, uy, atS, slow, reach),
  ];
  const power = tilts.reduce((sum, tilt) => sum + meanSquare(tilt), 0);
  if (Math.sqrt(power) > LEVEL_SETTINGS.mostTiltRad) return acceleration;
  return {
    ...acceleration,
    columns: columns.map((column, axis) => withoutTilt(column, tilts[axis]!)),
  };
};
