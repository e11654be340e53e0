import { type ByteCursor, decimalAt } from '../byte-cursor.js';
import { type KnownMinute, nextZuluTimeAt } from '../byte-time.js';
import { TIME, type TrackPoints } from '../xml/track-points.js';
import { beginsPoint, POINT_LENGTH, skipSpace } from './gpx-bytes.js';

/**
 * What a point is like but for its values. Devices write one point as the other, so most points are read by
 * holding their bytes against those of one that was read letter by letter.
 */
export interface PointShape {
  /** Where the bytes before each value begin, in the point it was learnt from; the last are those behind all values. */
  readonly from: Int32Array;
  /** Where they end. */
  readonly to: Int32Array;
  /** What each value is: a place among POINT_FIELDS, or {@link TIME}. */
  readonly fields: Int32Array;
}

/** A scan for points of a shape. */
export interface ShapeScan {
  readonly cursor: ByteCursor;
  /** The same bytes, to be compared four at a time. */
  readonly view: DataView;
  readonly points: TrackPoints;
}

/** True where so many bytes at two places are the same. */
const areSame = (view: DataView, one: number, two: number, count: number): boolean => {
  if (Math.max(one, two) + count > view.byteLength) return false;
  let i = 0;
  for (; i + 4 <= count; i += 4)
    if (view.getInt32(one + i, true) !== view.getInt32(two + i, true)) return false;
  for (; i < count; i++) if (view.getUint8(one + i) !== view.getUint8(two + i)) return false;
  return true;
};

/**
 * Read the points from the cursor on that are of a shape; the cursor moves behind them.
 * @returns how many there were
 */
export const readPointsOf = (shape: PointShape, { cursor, view, points }: ShapeScan): number => {
  const { from, to, fields } = shape;
  const { bytes } = cursor;
  const values = new Float64Array(fields.length);
  const minute: KnownMinute = { at: -1, unixS: 0 };
  for (let count = 0; ; count++) {
    const before = cursor.at;
    skipSpace(cursor);
    if (!beginsPoint(bytes, cursor.at)) {
      cursor.at = before;
      return count;
    }
    cursor.at += POINT_LENGTH;
    for (let k = 0; k < from.length; k++) {
      const length = to[k]! - from[k]!;
      if (!areSame(view, from[k]!, cursor.at, length)) {
        cursor.at = before;
        return count;
      }
      cursor.at += length;
      if (k === fields.length) break;
      const value = fields[k] === TIME ? nextZuluTimeAt(cursor, minute) : decimalAt(cursor);
      if (Number.isNaN(value)) {
        cursor.at = before;
        return count;
      }
      values[k] = value;
    }
    points.append(fields, values);
  }
};
