import type { ChannelName } from '../../recording/index.js';

/** Quantities that an XML track point can hold, each one number. */
export const POINT_FIELDS = [
  'lat',
  'lon',
  'elevation',
  'speed',
  'distance',
  'cadence',
  'heart_rate',
  'accuracy',
] as const;
export type PointField = (typeof POINT_FIELDS)[number];

/** Points as they are read, one row each; arrays grow as needed. */
export interface TrackPoints {
  readonly count: () => number;
  /** Begin a row; `unixS` is NaN where the point has no time. */
  readonly begin: (unixS: number) => void;
  /** Set a field of the last row. */
  readonly set: (field: PointField, value: number) => void;
  /** Set a field of the last row unless it is set. */
  readonly setFirst: (field: PointField, value: number) => void;
  /** Unix time of each row, s, as it is. */
  readonly unixS: () => Float64Array;
  readonly column: (field: PointField) => Float64Array;
}

const FIRST_CAPACITY = 1024;

const grown = (from: Float64Array, capacity: number): Float64Array => {
  const to = new Float64Array(capacity).fill(Number.NaN);
  to.set(from);
  return to;
};

/** An empty list of points. */
export const trackPoints = (): TrackPoints => {
  let capacity = FIRST_CAPACITY;
  let count = 0;
  let times = grown(new Float64Array(0), capacity);
  const fields = new Map<PointField, Float64Array>();
  const columnOf = (field: PointField): Float64Array => {
    const found = fields.get(field) ?? grown(new Float64Array(0), capacity);
    fields.set(field, found);
    return found;
  };
  return {
    count: () => count,
    begin: (unixS) => {
      if (count === capacity) {
        capacity *= 2;
        times = grown(times, capacity);
        for (const [field, column] of fields) fields.set(field, grown(column, capacity));
      }
      times[count++] = unixS;
    },
    set: (field, value) => {
      columnOf(field)[count - 1] = value;
    },
    setFirst: (field, value) => {
      const column = columnOf(field);
      if (Number.isNaN(column[count - 1])) column[count - 1] = value;
    },
    unixS: () => times.slice(0, count),
    column: (field) => columnOf(field).slice(0, count),
  };
};

/** Microseconds in a second: times of an absolute clock are kept to one, below which a double has noise. */
const TICKS = 1e6;

/**
 * Times from a whole-second origin before the first, to the microsecond.
 * @returns `originUnixS` 0 where no point has a time
 */
export const timesFromOrigin = (unixS: Float64Array): { atS: Float64Array; originUnixS: number } => {
  const first = unixS.find((at) => Number.isFinite(at));
  const originUnixS = first === undefined ? 0 : Math.floor(first);
  return { atS: unixS.map((at) => Math.round((at - originUnixS) * TICKS) / TICKS), originUnixS };
};

/** The channels of the points; columns are left out where no row has a value. */
export const pointColumns = (points: TrackPoints): Partial<Record<ChannelName, Float64Array[]>> => {
  const columns: Partial<Record<ChannelName, Float64Array[]>> = {};
  const [lat, lon] = [points.column('lat'), points.column('lon')];
  if (lat.some((value) => Number.isFinite(value))) columns.position = [lat, lon];
  for (const name of ['elevation', 'speed', 'distance', 'cadence', 'heart_rate'] as const) {
    const column = points.column(name);
    if (column.some((value) => Number.isFinite(value))) columns[name] = [column];
  }
  return columns;
};
