/** The boat's true state on an even grid. Filled by `rowed`; the body's own motion is kept for the sensors. */
export interface Grid {
  readonly stepS: number;
  readonly count: number;
  readonly alongM: Float64Array;
  readonly eastM: Float64Array;
  readonly northM: Float64Array;
  readonly speedMps: Float64Array;
  readonly waterSpeedMps: Float64Array;
  readonly surgeMps2: Float64Array;
  readonly headingRad: Float64Array;
  /** Place of the crew's moving mass on the hull / its travel, -0.5 sternmost to 0.5. */
  readonly crewShare: Float64Array;
  /** Its acceleration relative to the hull, m/s². */
  readonly crewMps2: Float64Array;
  /** Lean of the boat to the side of the blade, -1 to 1. */
  readonly lean: Float64Array;
}

export const GRID_COLUMNS = [
  'alongM',
  'eastM',
  'northM',
  'speedMps',
  'waterSpeedMps',
  'surgeMps2',
  'headingRad',
  'crewShare',
  'crewMps2',
  'lean',
] as const;

type Columns = Record<(typeof GRID_COLUMNS)[number], Float64Array>;

const columnsOf = (count: number): Columns =>
  Object.fromEntries(GRID_COLUMNS.map((name) => [name, new Float64Array(count)])) as Columns;

/** Columns that grow: `room(i)` gives them with place for index i. */
export const growingColumns = (first: number) => {
  let columns = columnsOf(first);
  let size = first;
  return {
    room: (index: number): Columns => {
      if (index < size) return columns;
      size = Math.max(index + 1, size * 2);
      const larger = columnsOf(size);
      for (const name of GRID_COLUMNS) larger[name].set(columns[name]);
      columns = larger;
      return columns;
    },
    cut: (count: number): Columns =>
      Object.fromEntries(GRID_COLUMNS.map((name) => [name, columns[name].slice(0, count)])) as Columns,
  };
};

/** Value of an evenly spaced column at a time, between its neighbours by a straight line, held at the ends. */
export const valueAt = (column: Float64Array, stepS: number, atS: number): number => {
  const place = atS / stepS;
  if (place <= 0) return column[0]!;
  const index = Math.floor(place);
  if (index >= column.length - 1) return column[column.length - 1]!;
  const before = column[index]!;
  return before + (column[index + 1]! - before) * (place - index);
};
