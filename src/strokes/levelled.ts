import { type Channel, usualIntervalS } from '../recording/index.js';
import { butterworth, median, zeroPhase } from '../signal/index.js';
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
 * Specific force with the share of gravity that quick tilting turns into each axis taken out: a fixed vector g
 * seen from a frame that turns at w changes by -w x g (e.g. Titterton & Weston, Strapdown Inertial Navigation
 * Technology, 3.5), and small tilts add up. Slow tilt is left to the filters: the gyro drifts.
 * @param acceleration three components, m/s²
 * @param rotation right-handed about the same axes, rad/s, sample by sample
 * @returns the channel as it came where gravity does not show, or the sensor turns too far to call it tilt
 */
export const levelled = (acceleration: Channel, rotation: Channel): Channel => {
  const { atS, columns } = acceleration;
  const intervalS = usualIntervalS(atS);
  const means = columns.map((column) => median(column));
  const size = Math.hypot(...means);
  if (intervalS === null || size < SIGNAL_SETTINGS.leastGravityMps2) return acceleration;
  const [ux, uy, uz] = means.map((mean) => mean / size) as [number, number, number];
  const [wx, wy, wz] = rotation.columns as [Float64Array, Float64Array, Float64Array];
  const slow = butterworth(2, Math.min(0.9, 2 * LEVEL_SETTINGS.highPassHz * intervalS));
  const tilts = [
    (i: number) => wz[i]! * uy - wy[i]! * uz,
    (i: number) => wx[i]! * uz - wz[i]! * ux,
    (i: number) => wy[i]! * ux - wx[i]! * uy,
  ].map((rateAt) => {
    const tilt = new Float64Array(atS.length);
    for (let i = 1; i < tilt.length; i++) {
      const stepS = Math.min(atS[i]! - atS[i - 1]!, LEVEL_SETTINGS.longestStepS);
      tilt[i] = tilt[i - 1]! + (stepS * (rateAt(i) + rateAt(i - 1))) / 2;
    }
    const drift = zeroPhase(tilt, slow, Math.round(1 / (LEVEL_SETTINGS.highPassHz * intervalS)));
    return tilt.map((value, i) => value - drift[i]!);
  });
  const power = tilts.reduce((sum, tilt) => sum + tilt.reduce((all, value) => all + value * value, 0), 0);
  if (Math.sqrt(power / atS.length) > LEVEL_SETTINGS.mostTiltRad) return acceleration;
  return {
    ...acceleration,
    columns: columns.map((column, axis) => column.map((value, i) => value - GRAVITY_MPS2 * tilts[axis]![i]!)),
  };
};
