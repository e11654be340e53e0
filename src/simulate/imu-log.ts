import type { Scenario } from '../contract/scenario.js';
import { type Grid, valueAt } from './grid.js';
import { randomFrom } from './random.js';
import type { StrokeShape } from './stroke-shape.js';
import type { WaveMotion, Waves } from './wave-motion.js';

/** An IMU log as the logger wrote it. Stamps on its own clock. */
export interface ImuLog {
  readonly stampS: Float64Array;
  /** Specific force along the box's x, y, z, m/s²; at rest 1 g upward. */
  readonly force: readonly [Float64Array, Float64Array, Float64Array];
  /** Rates of rotation about them, rad/s; null where not logged. */
  readonly rotation: readonly [Float64Array, Float64Array, Float64Array] | null;
}

const RADIANS = Math.PI / 180;

/** Sensor values where the scenario is silent: a good small accelerometer fixed to the hull; common practice. */
export const IMU_DEFAULTS = Object.freeze({
  noiseMps2: 0.05,
  biasMps2: 0.03,
  rotationNoiseDps: 0.1,
  /** Standard gravity, m/s² (exact by convention, CGPM 1901). */
  gravityMps2: 9.80665,
  /** How far a trunk swings forward and back with the stroke, degrees, and a wrist. */
  trunkSwingDeg: 25,
  /** Sway of the boat's roll that no stroke explains, degrees. */
  rollSwayDeg: 0.4,
  rollSwayHz: 0.31,
});

type Imu = NonNullable<Scenario['sensors']['imu']>;
type Rows = readonly [number, number, number, number, number, number, number, number, number];

/** Box axes in the boat: x forward, y to port, z up turned by yaw to starboard, then bow end up, then to starboard. */
const mountOf = (mount: Imu['mount']): Rows => {
  const yaw = -(mount?.yaw_deg ?? 0) * RADIANS;
  const pitch = -(mount?.pitch_deg ?? 0) * RADIANS;
  const roll = (mount?.roll_deg ?? 0) * RADIANS;
  const [cy, sy, cp, sp] = [Math.cos(yaw), Math.sin(yaw), Math.cos(pitch), Math.sin(pitch)];
  const [cr, sr] = [Math.cos(roll), Math.sin(roll)];
  return [
    cy * cp,
    cy * sp * sr - sy * cr,
    cy * sp * cr + sy * sr,
    sy * cp,
    sy * sp * sr + cy * cr,
    sy * sp * cr - cy * sr,
    -sp,
    cp * sr,
    cp * cr,
  ];
};

/** How much of the crew's own motion a sensor shares, by where it is worn. */
const WORN: Readonly<Record<string, number>> = {
  body: 1,
  pocket: 0.7,
  wrist: 1.8,
  cox: 0,
  hull: 0,
  unknown: 0,
};

const CALM: WaveMotion = { surge: 0, sway: 0, heave: 0, roll: 0, pitch: 0, yaw: 0 };

/**
 * The IMU log that a box aboard writes.
 * @param moved what moves the hull beside its crew; null in calm water
 */
export const imuLog = (
  scenario: Scenario,
  imu: Imu,
  grid: Grid,
  shape: StrokeShape,
  moved: Waves | null,
): ImuLog => {
  const set = IMU_DEFAULTS;
  const { stepS } = grid;
  const startS = imu.start_s ?? 0;
  const endS = Math.min((grid.count - 1) * stepS, scenario.faults?.cut_off_s ?? Number.POSITIVE_INFINITY);
  const most = Math.max(0, Math.floor((endS - startS) * imu.hz) + 1);
  const stampS = new Float64Array(most);
  const force = [new Float64Array(most), new Float64Array(most), new Float64Array(most)] as const;
  const rotation =
    imu.rotation === true
      ? ([new Float64Array(most), new Float64Array(most), new Float64Array(most)] as const)
      : null;
  const noise = randomFrom(scenario.seed, 'imu noise');
  const spin = randomFrom(scenario.seed, 'imu rotation');
  const timing = randomFrom(scenario.seed, 'imu timing');
  const biasSd = imu.bias_mps2 ?? set.biasMps2;
  const bias = [0, 0, 0].map(() => biasSd * noise.normal());
  const noiseSd = imu.noise_mps2 ?? set.noiseMps2;
  const spinSd = (imu.rotation_noise_dps ?? set.rotationNoiseDps) * RADIANS;
  const limit = imu.limit_mps2 ?? Number.POSITIVE_INFINITY;
  const drift = 1 + (imu.drift_ppm ?? 0) * 1e-6;
  const worn = WORN[imu.placement ?? 'hull']!;
  const swing = worn > 0 ? set.trunkSwingDeg * RADIANS : 0;
  const m = mountOf(imu.mount);
  const g = set.gravityMps2;
  const moving = Math.sign(shape.travelM);
  const swayPhase = timing.uniform() * 2 * Math.PI;
  const swayRad = 2 * Math.PI * set.rollSwayHz;
  let [lastPitch, lastRoll, lastHeading, lastS] = [0, 0, grid.headingRad[0]!, startS - 1 / imu.hz];
  let count = 0;
  for (let i = 0; i < most; i++) {
    // The first sample is neither late nor lost: the log's own clock counts from it.
    const lateS = imu.jitter_s ? imu.jitter_s * timing.normal() : 0;
    const lost = imu.lost_pct ? timing.uniform() * 100 < imu.lost_pct : false;
    const atS = startS + i / imu.hz + (i > 0 ? lateS : 0);
    if (i > 0 && (lost || atS <= lastS)) continue;
    const at = (column: Float64Array) => valueAt(column, stepS, atS);
    const heading = at(grid.headingRad);
    const waves = moved === null ? CALM : moved(atS, at(grid.eastM), at(grid.northM), heading);
    const crew = at(grid.crewShare);
    const lean = at(grid.lean);
    const pitch = moving * crew * 2 * shape.pitchDeg * RADIANS + waves.pitch - swing * crew;
    const roll =
      lean * shape.rollDeg * RADIANS +
      waves.roll +
      set.rollSwayDeg * RADIANS * Math.sin(swayRad * atS + swayPhase);
    const bow = heading + lean * shape.yawDeg * RADIANS + waves.yaw;
    const sinceS = i === 0 ? 1 / imu.hz : atS - lastS;
    const turn = i === 0 ? 0 : -(bow - lastHeading) / sinceS;
    const surge = at(grid.surgeMps2) + waves.surge + (worn > 0 ? worn * at(grid.crewMps2) : 0);
    const up = g + waves.heave;
    // Specific force in the boat's axes, x forward, y to port, z up: f = Rᵀ (a - g).
    const [cp, sp, cr, sr] = [Math.cos(pitch), Math.sin(pitch), Math.cos(roll), Math.sin(roll)];
    const fx = surge * cp + up * sp;
    const below = up * cp - surge * sp;
    const across = at(grid.waterSpeedMps) * turn + waves.sway;
    const fy = across * cr + below * sr;
    const fz = below * cr - across * sr;
    const clipped = (value: number) => Math.max(-limit, Math.min(limit, value));
    force[0][count] = clipped(m[0] * fx + m[3] * fy + m[6] * fz + bias[0]! + noiseSd * noise.normal());
    force[1][count] = clipped(m[1] * fx + m[4] * fy + m[7] * fz + bias[1]! + noiseSd * noise.normal());
    force[2][count] = clipped(m[2] * fx + m[5] * fy + m[8] * fz + bias[2]! + noiseSd * noise.normal());
    if (rotation !== null) {
      const rollRate = i === 0 ? 0 : (roll - lastRoll) / sinceS;
      const pitchRate = i === 0 ? 0 : -(pitch - lastPitch) / sinceS;
      rotation[0][count] = m[0] * rollRate + m[3] * pitchRate + m[6] * turn + spinSd * spin.normal();
      rotation[1][count] = m[1] * rollRate + m[4] * pitchRate + m[7] * turn + spinSd * spin.normal();
      rotation[2][count] = m[2] * rollRate + m[5] * pitchRate + m[8] * turn + spinSd * spin.normal();
    }
    stampS[count] = (atS - startS) * drift;
    [lastPitch, lastRoll, lastHeading, lastS] = [pitch, roll, bow, atS];
    count++;
  }
  const cut = (column: Float64Array) => column.slice(0, count);
  return {
    stampS: cut(stampS),
    force: [cut(force[0]), cut(force[1]), cut(force[2])],
    rotation: rotation === null ? null : [cut(rotation[0]), cut(rotation[1]), cut(rotation[2])],
  };
};
