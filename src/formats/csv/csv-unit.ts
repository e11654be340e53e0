import { stepBetween } from '../../geodesy/index.js';
import type { ChannelName } from '../../recording/index.js';
import { MPS_PER_KNOT } from '../../units/speed.js';
import { STANDARD_GRAVITY_MPS2 } from './csv-quantity.js';

/** A unit that a header does not state. */
export interface CsvUnit {
  readonly scale: number;
  /** How it is called in a message. */
  readonly unit: string;
  /** The name by which a column states it. */
  readonly example: string;
}

/** Between what sizes values are of a unit. */
export const CSV_UNIT_SETTINGS = Object.freeze({
  /** Share by which the median acceleration of a moving boat may differ from gravity. */
  gravityTolerance: 0.3,
  /** rad/s; no rotation sensor reaches more (2000 °/s), so larger values are degrees. */
  highestRotationRadps: 35,
  /** m/s; no rowed or paddled craft is faster, so larger values are of another unit. */
  highestSpeedMps: 12,
  /** Share by which a logged speed may differ from that of the positions, noise making the way longer. */
  speedTolerance: 0.2,
  /** s; over longer steps the way between positions is shorter than the one rowed. */
  longestStepS: 10,
});

const median = (values: Float64Array): number => {
  const sorted = values.filter((value) => Number.isFinite(value)).sort();
  return sorted[sorted.length >> 1] ?? Number.NaN;
};

/** The unit in which a median acceleration is gravity; null where it is gravity in none. */
export const gravityUnit = (columns: readonly Float64Array[]): CsvUnit | null => {
  const [x, y, z] = columns as [Float64Array, Float64Array, Float64Array];
  const size = median(x.map((value, i) => Math.hypot(value, y[i]!, z[i]!)));
  const near = (gravity: number): boolean =>
    Math.abs(size / gravity - 1) <= CSV_UNIT_SETTINGS.gravityTolerance;
  if (near(1)) return { scale: STANDARD_GRAVITY_MPS2, unit: 'g', example: 'ax_g' };
  if (near(1000)) return { scale: STANDARD_GRAVITY_MPS2 / 1000, unit: 'mg', example: 'ax_mg' };
  return near(STANDARD_GRAVITY_MPS2) ? { scale: 1, unit: 'm/s²', example: 'ax_mps2' } : null;
};

const rotationUnit = (columns: readonly Float64Array[]): CsvUnit =>
  columns.some((column) => column.some((value) => Math.abs(value) > CSV_UNIT_SETTINGS.highestRotationRadps))
    ? { scale: Math.PI / 180, unit: '°/s', example: 'gx_dps' }
    : { scale: 1, unit: 'rad/s', example: 'gx_rads' };

const SPEED_UNITS: readonly CsvUnit[] = [
  { scale: 1, unit: 'm/s', example: 'speed_mps' },
  { scale: 1 / 3.6, unit: 'km/h', example: 'speed_kmh' },
  { scale: MPS_PER_KNOT, unit: 'knots', example: 'speed_knots' },
];

/** Mean speed of the positions, m/s, and the mean of the logged values, over the steps that have both. */
const meanSpeeds = (atS: Float64Array, speed: Float64Array, lat: Float64Array, lon: Float64Array) => {
  let [last, seconds, metres, logged] = [-1, 0, 0, 0];
  for (let row = 0; row < atS.length; row++) {
    if (!Number.isFinite(atS[row]! + speed[row]! + lat[row]! + lon[row]!)) continue;
    const stepS = last < 0 ? 0 : atS[row]! - atS[last]!;
    if (stepS > 0 && stepS <= CSV_UNIT_SETTINGS.longestStepS) {
      const { eastM, northM } = stepBetween(
        { latDeg: lat[last]!, lonDeg: lon[last]! },
        { latDeg: lat[row]!, lonDeg: lon[row]! },
      );
      seconds += stepS;
      metres += Math.hypot(eastM, northM);
      logged += speed[row]! * stepS;
    }
    last = row;
  }
  return { positions: metres / seconds, logged: logged / seconds };
};

/** The unit of a speed by the speed of the positions, or m/s where values could be; null where they cannot. */
const speedUnit = (
  atS: Float64Array,
  speed: Float64Array,
  position: readonly Float64Array[] | undefined,
): CsvUnit | null => {
  const { highestSpeedMps, speedTolerance } = CSV_UNIT_SETTINGS;
  if (position !== undefined) {
    const means = meanSpeeds(atS, speed, position[0]!, position[1]!);
    const missOf = ({ scale }: CsvUnit): number =>
      Math.abs(Math.log((means.logged * scale) / means.positions));
    const nearest = [...SPEED_UNITS].sort((a, b) => missOf(a) - missOf(b))[0]!;
    return missOf(nearest) <= speedTolerance ? nearest : null;
  }
  return speed.some((value) => value > highestSpeedMps) ? null : SPEED_UNITS[0]!;
};

/** What a unit is distinguished from. */
export interface CsvUnitClues {
  readonly atS: Float64Array;
  /** Latitudes and longitudes of the same rows, where the log has them. */
  readonly position: readonly Float64Array[] | undefined;
}

/** Channels that come in several units. */
export const UNIT_CHANNELS: readonly ChannelName[] = ['acceleration', 'rotation', 'speed', 'distance'];

/**
 * The unit of a channel of several units whose header states none, by the size of its values.
 * @returns null where it cannot be known
 */
export const csvUnit = (
  name: ChannelName,
  columns: readonly Float64Array[],
  clues: CsvUnitClues,
): CsvUnit | null => {
  if (name === 'acceleration') return gravityUnit(columns) ?? { scale: 1, unit: 'm/s²', example: 'ax_mps2' };
  if (name === 'rotation') return rotationUnit(columns);
  if (name === 'speed') return speedUnit(clues.atS, columns[0]!, clues.position);
  return { scale: 1, unit: 'm', example: 'distance_m' };
};
