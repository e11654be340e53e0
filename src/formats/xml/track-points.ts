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
  /** Make room for so many rows in all. */
  readonly reserve: (rowCount: number) => void;
  /** Begin a row; `unixS` is NaN where the point has no time. */
  readonly begin: (unixS: number) => void;
  /** Set the time of the last row, Unix s. */
  readonly setTime: (unixS: number) => void;
  /** Set a field of the last row unless it is set. @param field its place among POINT_FIELDS */
  readonly setFirst: (field: number, value: number) => void;
  /** Add a row of values. @param fields places among POINT_FIELDS, each once; {@link TIME} for the time, Unix s */
  readonly append: (fields: Int32Array, values: Float64Array) => void;
  /** Unix time of each row, s, as it is. */
  readonly unixS: () => Float64Array;
  /** Values of a field; null where no row has one. */
  readonly column: (field: PointField) => Float64Array | null;
}

/** Stands for the time where fields are reported by their place. */
export const TIME = -1;

const FIRST_CAPACITY = 1024;

const grown = (from: Float64Array, capacity: number): Float64Array => {
  const to = new Float64Array(capacity).fill(Number.NaN);
  to.set(from);
  return to;
};

const NOTHING = new Float64Array(0);

/** An empty list of points. */
export const trackPoints = (): TrackPoints => {
  let capacity = FIRST_CAPACITY;
  let count = 0;
  let times = grown(NOTHING, capacity);
  const fields: (Float64Array | null)[] = POINT_FIELDS.map(() => null);
  const reserve = (rowCount: number): void => {
    if (rowCount <= capacity) return;
    capacity = rowCount;
    times = grown(times, capacity);
    for (const [i, column] of fields.entries()) if (column !== null) fields[i] = grown(column, capacity);
  };
  const columnAt = (field: number): Float64Array => {
    const column = fields[field] ?? grown(NOTHING, capacity);
    fields[field] = column;
    return column;
  };
  return {
    count: () => count,
    reserve,
    begin: (unixS) => {
      if (count === capacity) reserve(2 * capacity);
      times[count++] = unixS;
    },
    append: (held, values) => {
      if (count === capacity) reserve(2 * capacity);
      for (let i = 0; i < held.length; i++) {
        const field = held[i]!;
        (field === TIME ? times : columnAt(field))[count] = values[i]!;
      }
      count++;
    },
    setTime: (unixS) => {
      times[count - 1] = unixS;
    },
    setFirst: (field, value) => {
      const column = columnAt(field);
      if (Number.isNaN(column[count - 1])) column[count - 1] = value;
    },
    unixS: () => times.subarray(0, count),
    column: (field) => fields[POINT_FIELDS.indexOf(field)]?.subarray(0, count) ?? null,
  };
};

/** Ticks in a second to which times of an absolute clock are kept: below a microsecond a double has noise. */
const TICKS = 1e6;

/**
 * Times from a whole-second origin before the first, to the microsecond.
 * @returns `originUnixS` 0 where no point has a time
 */
export const timesFromOrigin = (unixS: Float64Array): { atS: Float64Array; originUnixS: number } => {
  const first = unixS.find((at) => Number.isFinite(at));
  const originUnixS = first === undefined ? 0 : Math.floor(first);
  const atS = new Float64Array(unixS.length);
  for (let i = 0; i < atS.length; i++) atS[i] = Math.round((unixS[i]! - originUnixS) * TICKS) / TICKS;
  return { atS, originUnixS };
};

/** The channels of the points; columns are left out where no row has a value. */
export const pointColumns = (points: TrackPoints): Partial<Record<ChannelName, Float64Array[]>> => {
  const columns: Partial<Record<ChannelName, Float64Array[]>> = {};
  const held = (field: PointField): Float64Array | null => {
    const column = points.column(field);
    return column?.some((value) => !Number.isNaN(value)) ? column : null;
  };
  const lat = held('lat');
  if (lat !== null)
    columns.position = [lat, points.column('lon') ?? new Float64Array(points.count()).fill(Number.NaN)];
  for (const name of ['elevation', 'speed', 'distance', 'cadence', 'heart_rate'] as const) {
    const column = held(name);
    if (column !== null) columns[name] = [column];
  }
  return columns;
};
