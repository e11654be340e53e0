import type { ChannelName } from '../../recording/index.js';
import { STANDARD_GRAVITY_MPS2 } from './csv-quantity.js';

/** A unit that a header does not state. */
export interface CsvUnit {
  readonly scale: number;
  /** How it is called in a message. */
  readonly unit: string;
  /** The name by which a column states it. */
  readonly example: string;
}

/** Between what sizes the median of an acceleration is gravity, in each unit. */
export const CSV_UNIT_SETTINGS = Object.freeze({
  /** Share by which a moving sensor's median may differ from gravity. */
  gravityTolerance: 0.3,
  /** rad/s; no rotation sensor reaches more (2000 °/s), so larger values are degrees. */
  highestRotationRadps: 35,
});

const median = (values: Float64Array): number => {
  const sorted = values.filter((value) => Number.isFinite(value)).sort();
  return sorted[sorted.length >> 1] ?? Number.NaN;
};

const UNSTATED: Readonly<Partial<Record<ChannelName, CsvUnit>>> = {
  speed: { scale: 1, unit: 'm/s', example: 'speed_mps' },
  distance: { scale: 1, unit: 'm', example: 'distance_m' },
};

const accelerationUnit = (columns: readonly Float64Array[]): CsvUnit => {
  const [x, y, z] = columns as [Float64Array, Float64Array, Float64Array];
  const size = median(x.map((value, i) => Math.hypot(value, y[i]!, z[i]!)));
  const near = (gravity: number): boolean =>
    Math.abs(size / gravity - 1) <= CSV_UNIT_SETTINGS.gravityTolerance;
  if (near(1)) return { scale: STANDARD_GRAVITY_MPS2, unit: 'g', example: 'ax_g' };
  if (near(1000)) return { scale: STANDARD_GRAVITY_MPS2 / 1000, unit: 'mg', example: 'ax_mg' };
  return { scale: 1, unit: 'm/s²', example: 'ax_mps2' };
};

const rotationUnit = (columns: readonly Float64Array[]): CsvUnit =>
  columns.some((column) => column.some((value) => Math.abs(value) > CSV_UNIT_SETTINGS.highestRotationRadps))
    ? { scale: Math.PI / 180, unit: '°/s', example: 'gx_dps' }
    : { scale: 1, unit: 'rad/s', example: 'gx_rads' };

/**
 * The unit of a channel whose header states none, by the size of its values.
 * @returns null for channels that have but one unit
 */
export const csvUnit = (name: ChannelName, columns: readonly Float64Array[]): CsvUnit | null =>
  name === 'acceleration'
    ? accelerationUnit(columns)
    : name === 'rotation'
      ? rotationUnit(columns)
      : (UNSTATED[name] ?? null);
