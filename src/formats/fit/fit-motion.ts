import { makeSampleRows } from '../sample-rows.js';
import { type FitField, fieldValue, fieldValues, valueCount } from './fit-field.js';
import type { FitMessage } from './fit-messages.js';
import { CALIBRATION, MOTION } from './fit-profile.js';

/** Samples of a three-axis sensor. */
export interface FitMotion {
  readonly calibrate: (message: FitMessage) => void;
  readonly add: (message: FitMessage) => void;
  /** Milliseconds from the FIT epoch: whole numbers, so no digit is lost. */
  readonly fitMs: () => Float64Array;
  /** x, y, z in the sensor's unit (g, or degrees per second); null where there is no sample. */
  readonly axes: () => readonly Float64Array[] | null;
  /** Messages left out because they hold raw counts and no calibration, or no sample times. */
  readonly leftOut: () => number;
}

interface Calibration {
  readonly gain: number;
  readonly level: number;
  readonly offsets: readonly number[];
  readonly matrix: readonly number[];
}

const MATRIX_SCALE = 65_535;
const IDENTITY = [1, 0, 0, 0, 1, 0, 0, 0, 1];
const AXES = [0, 1, 2];

const valuesOf = ({ definition, view, at }: FitMessage, number: number): number[] => {
  const field: FitField | undefined = definition.fields.find((some) => some.number === number);
  return field ? fieldValues(view, at, field, definition.littleEndian) : [];
};

/** The one value of a field of a message, unscaled; NaN where it is missing or invalid. */
export const messageValue = ({ definition, view, at }: FitMessage, number: number): number => {
  const field = definition.fields.find((some) => some.number === number);
  return field && valueCount(field) > 0 ? fieldValue(view, at, field, definition.littleEndian) : Number.NaN;
};

const calibrationOf = (message: FitMessage): Calibration | null => {
  const gain = messageValue(message, CALIBRATION.factor) / messageValue(message, CALIBRATION.divisor);
  if (!Number.isFinite(gain)) return null;
  const offsets = valuesOf(message, CALIBRATION.offsets);
  const matrix = valuesOf(message, CALIBRATION.matrix).map((value) => value / MATRIX_SCALE);
  return {
    gain,
    level: messageValue(message, CALIBRATION.levelShift) || 0,
    offsets: offsets.length === 3 && offsets.every(Number.isFinite) ? offsets : [0, 0, 0],
    matrix: matrix.length === 9 && matrix.every(Number.isFinite) ? matrix : IDENTITY,
  };
};

/** An empty set of samples. */
export const makeFitMotion = (): FitMotion => {
  const rows = makeSampleRows(4);
  let calibration: Calibration | null = null;
  let leftOut = 0;

  /** x, y and z of every sample in a message, in the sensor's unit; null where they cannot be known. */
  const samplesOf = (message: FitMessage): readonly (readonly number[])[] | null => {
    const three = (first: number): number[][] => AXES.map((axis) => valuesOf(message, first + axis));
    const calibrated = three(MOTION.calibrated);
    if (calibrated.every((values) => values.length > 0)) return calibrated;
    const milli = three(MOTION.compressedMilli);
    if (milli.every((values) => values.length > 0))
      return milli.map((values) => values.map((value) => value / 1000));
    if (calibration === null) return null;
    const { gain, level, offsets, matrix } = calibration;
    const raw = three(MOTION.raw).map((values, axis) =>
      values.map((value) => value - level - offsets[axis]!),
    );
    return AXES.map((row) =>
      raw[0]!.map(
        (_, i) => gain * AXES.reduce((sum, axis) => sum + matrix[row * 3 + axis]! * raw[axis]![i]!, 0),
      ),
    );
  };

  return {
    calibrate: (message) => {
      calibration = calibrationOf(message) ?? calibration;
    },
    add: (message) => {
      const startMs = message.fitS * 1000 + (messageValue(message, MOTION.startMs) || 0);
      const offsetsMs = valuesOf(message, MOTION.offsetsMs);
      const samples = samplesOf(message);
      if (samples === null || offsetsMs.length === 0) {
        leftOut++;
        return;
      }
      offsetsMs.forEach((offsetMs, i) => {
        const values = samples.map((axis) => axis[i] ?? Number.NaN);
        if (!Number.isFinite(offsetMs) || !values.every(Number.isFinite)) return;
        rows.begin();
        rows.put(0, startMs + offsetMs);
        values.forEach((value, axis) => {
          rows.put(axis + 1, value);
        });
      });
    },
    fitMs: () => rows.column(0) ?? new Float64Array(0),
    axes: () => {
      const axes = AXES.map((axis) => rows.column(axis + 1));
      return axes.every((axis) => axis !== null) ? axes : null;
    },
    leftOut: () => leftOut,
  };
};
