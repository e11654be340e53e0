/** What a figure of a result can be, and why not more. */
export interface FigureLimit {
  readonly low: number;
  readonly high: number;
  /** Why no figure lies beyond, as part of a sentence. */
  readonly why: string;
}

/** m/s; the fastest 500 m in an eight are 6.7 m/s, a surf ski on waves reaches 10, a stream that is rowed 5 (common practice). */
export const FASTEST_MPS = 20;

/** m; so much may be added to the length of a row by the error of its positions. */
const POSITION_ERROR_M = 50;

const FASTER = `no rowed or paddled craft is faster than ${FASTEST_MPS} m/s`;

/**
 * What figures of results can be, by the unit that a key ends in; the longest ending that fits counts. Wide on
 * purpose: a figure beyond is an error of the log, whatever made it.
 */
export const FIGURE_LIMITS: Readonly<Record<string, FigureLimit>> = Object.freeze({
  _mps: { low: -FASTEST_MPS, high: FASTEST_MPS, why: FASTER },
  // No lower than at the highest speed; no higher than 1 mm/s, which is at rest.
  _s_per_500m: { low: 500 / FASTEST_MPS, high: 500_000, why: FASTER },
  // m/s²; accelerometers for blows end at 200 g.
  _mps2: { low: -2000, high: 2000, why: 'no logger measures more than 2000 m/s²' },
  // 1/min; both sides of a sprint kayak come near 160 (common practice).
  _spm: { low: 0, high: 250, why: 'no crew takes more than 250 strokes a minute' },
  // 1/min; no heart of a person who rows is slower or faster (value from memory).
  _bpm: { low: 20, high: 250, why: 'no heart beats slower than 20 or faster than 250 times a minute' },
  // m; the highest speed at 8 strokes a minute.
  distance_per_stroke_m: { low: 0, high: 150, why: 'no craft runs farther than 150 m on a stroke' },
  // s; one log spans a year at most, a season may add up many.
  _s: { low: -1e9, high: 1e9, why: 'no log is that long' },
  // m; forty times around the Earth.
  _m: { low: -1.6e9, high: 1.6e9, why: 'no way on the Earth is that long' },
  _hz: { low: 0, high: 20_000, why: 'no logger is that fast' },
  _deg: { low: -360, high: 360, why: 'a turn has 360 degrees' },
});

const ENDINGS = Object.keys(FIGURE_LIMITS).sort((a, b) => b.length - a.length);

const known = new Map<string, FigureLimit | null>();

/** The limit of a key; null where it has none. */
export const figureLimit = (key: string): FigureLimit | null => {
  const before = known.get(key);
  if (before !== undefined) return before;
  const ending = ENDINGS.find((candidate) => key.endsWith(candidate));
  const limit = ending === undefined ? null : FIGURE_LIMITS[ending]!;
  known.set(key, limit);
  return limit;
};

/** Lengths that a boat covers within the `duration_s` of the same row. */
const WAYS: readonly string[] = ['distance_m', 'over_ground_m', 'drift_m', 'furthest_m'];

/** Where a figure stands: keys and places in lists, from the top of the result. */
export type FigurePath = readonly (string | number)[];

/** A figure that cannot be, where it stands, and why. */
export interface ImpossibleFigure {
  readonly path: FigurePath;
  readonly value: number;
  readonly why: string;
}

const wayLimitM = (row: Readonly<Record<string, unknown>>): number => {
  const { duration_s } = row;
  return typeof duration_s === 'number'
    ? duration_s * FASTEST_MPS + POSITION_ERROR_M
    : Number.POSITIVE_INFINITY;
};

/**
 * Every figure of a result that cannot be: beyond what its quantity can be, or a way longer than the time of its row
 * allows.
 * @throws Error (ours) where a figure is NaN or infinite: what is unknown is null
 */
export const impossibleFigures = (result: unknown): readonly ImpossibleFigure[] => {
  const found: ImpossibleFigure[] = [];
  const look = (value: unknown, path: (string | number)[], key: string, wayM: number): void => {
    if (typeof value === 'number') {
      if (!Number.isFinite(value)) throw new Error(`${key} is ${value}: what is unknown must be null`);
      const limit = figureLimit(key);
      const isBeyond = limit !== null && !(value >= limit.low && value <= limit.high);
      if (isBeyond) found.push({ path: [...path], value, why: limit.why });
      else if (value > wayM && WAYS.includes(key)) found.push({ path: [...path], value, why: FASTER });
      return;
    }
    if (value === null || typeof value !== 'object' || ArrayBuffer.isView(value)) return;
    const isList = Array.isArray(value);
    const row = value as Readonly<Record<string, unknown>>;
    const limitM = isList ? wayM : wayLimitM(row);
    for (const name of isList ? value.keys() : Object.keys(row)) {
      path.push(name);
      look(row[name], path, isList ? key : String(name), limitM);
      path.pop();
    }
  };
  look(result, [], '', Number.POSITIVE_INFINITY);
  return found;
};
