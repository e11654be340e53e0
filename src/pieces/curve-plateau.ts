/** Where a line of log speed against log rate bends, and whether it is flat beyond. */
export interface Bend {
  /** Natural log of the rate at the bend. */
  readonly at: number;
  /** How much better the bent line fits: an F ratio, corrected for errors that follow one another. */
  readonly ratio: number;
  readonly slopeBelow: number;
  readonly slopeAbove: number;
  readonly slopeAboveSd: number;
}

/** When a bend is believed to be the end of what rate buys. */
export const PLATEAU_SETTINGS = Object.freeze({
  /** F ratio that a bend must reach. The place of the bend is sought, so more than a table's 4: see tests/pieces. */
  ratio: 14,
  /** Blocks on either side of the bend, and how far the rates must reach beyond it, as a share. */
  fewest: 4,
  reach: 0.03,
  /** Slope beyond the bend: at most this share of the slope before it, and of constant work's 1/3. */
  flatShare: 0.35,
  /** Speed falls beyond the bend where its slope lies so many of its sd below 0; 2 to 3. */
  fallSds: 2,
  /** Steps in which the bend is sought, as a share of the rate. */
  step: 0.004,
  /** The place is refined this far to either side, as a share. */
  search: 0.12,
});

interface Fit {
  readonly squares: number;
  readonly slopes: readonly [number, number];
  readonly intercept: number;
  /** Inverse of the normal matrix, second slope's own entry. */
  readonly secondVariance: number;
}

/** Least squares of y on a constant, u and v. */
const fitted = (u: readonly number[], v: readonly number[], y: readonly number[]): Fit | null => {
  const count = y.length;
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / count;
  const [mu, mv, my] = [mean(u), mean(v), mean(y)];
  let [uu, vv, uv, uy, vy] = [0, 0, 0, 0, 0];
  for (let i = 0; i < count; i++) {
    const [du, dv, dy] = [u[i]! - mu, v[i]! - mv, y[i]! - my];
    uu += du * du;
    vv += dv * dv;
    uv += du * dv;
    uy += du * dy;
    vy += dv * dy;
  }
  const determinant = uu * vv - uv * uv;
  if (!(determinant > 1e-12)) return null;
  const slopes = [(vv * uy - uv * vy) / determinant, (uu * vy - uv * uy) / determinant] as const;
  const intercept = my - slopes[0] * mu - slopes[1] * mv;
  const squares = y.reduce(
    (sum, value, i) => sum + (value - intercept - slopes[0] * u[i]! - slopes[1] * v[i]!) ** 2,
    0,
  );
  return { squares, slopes, intercept, secondVariance: uu / determinant };
};

const squaresOfLine = (x: readonly number[], y: readonly number[]): number => {
  const count = y.length;
  const [mx, my] = [x, y].map((values) => values.reduce((sum, value) => sum + value, 0) / count) as [
    number,
    number,
  ];
  const xx = x.reduce((sum, value) => sum + (value - mx) ** 2, 0);
  const slope = x.reduce((sum, value, i) => sum + (value - mx) * (y[i]! - my), 0) / xx;
  return y.reduce((sum, value, i) => sum + (value - my - slope * (x[i]! - mx)) ** 2, 0);
};

/**
 * How much larger the variance of a mean is because errors follow one another: (1 + ρ) / (1 - ρ) of the lag-one
 * correlation ρ, 1 where it is below 0 (Bartlett 1946).
 */
export const inflation = (errors: readonly number[]): number => {
  let [own, next] = [0, 0];
  errors.forEach((error, i) => {
    own += error * error;
    if (i > 0) next += error * errors[i - 1]!;
  });
  const correlation = own > 0 ? Math.max(0, Math.min(0.9, next / own)) : 0;
  return (1 + correlation) / (1 - correlation);
};

/**
 * The best bend of a line in two straight parts that meet, by least squares over its place (Hudson 1966, JASA
 * 61:1097-1129).
 * @param x log rates, in time order
 * @param y log speeds
 * @returns null where there are too few points on both sides of any place
 */
export const bestBend = (x: readonly number[], y: readonly number[]): Bend | null => {
  const { fewest, reach, step } = PLATEAU_SETTINGS;
  const sorted = [...x].sort((a, b) => a - b);
  if (sorted.length < 2 * fewest + 2) return null;
  const first = Math.max(sorted[fewest - 1]!, sorted[0]! + reach);
  const last = Math.min(sorted[sorted.length - fewest]!, sorted[sorted.length - 1]! - reach);
  let best: { at: number; fit: Fit } | null = null;
  for (let at = first; at <= last; at += step) {
    const fit = fitted(
      x.map((value) => Math.min(value - at, 0)),
      x.map((value) => Math.max(value - at, 0)),
      y,
    );
    if (fit !== null && (best === null || fit.squares < best.fit.squares)) best = { at, fit };
  }
  if (best === null) return null;
  const { at, fit } = best;
  const errors = y.map(
    (value, i) =>
      value -
      fit.intercept -
      fit.slopes[0] * Math.min(x[i]! - at, 0) -
      fit.slopes[1] * Math.max(x[i]! - at, 0),
  );
  const inflate = inflation(errors);
  const variance = (fit.squares / Math.max(1, y.length - 4)) * inflate;
  return {
    at,
    ratio: (squaresOfLine(x, y) - fit.squares) / variance,
    slopeBelow: fit.slopes[0],
    slopeAbove: fit.slopes[1],
    slopeAboveSd: Math.sqrt(variance * fit.secondVariance),
  };
};

/** Where a rising line that goes on flat fits best, by least squares over the place. */
const flatFrom = (x: readonly number[], y: readonly number[], near: number): number => {
  const { step, search } = PLATEAU_SETTINGS;
  let best = { at: near, squares: Number.POSITIVE_INFINITY };
  for (let at = near - search; at <= near + search; at += step) {
    const squares = squaresOfLine(
      x.map((value) => Math.min(value, at)),
      y,
    );
    if (squares < best.squares) best = { at, squares };
  }
  return best.at;
};

/** Where more rate stops buying speed. */
export interface Plateau {
  readonly rateSpm: number;
  /** Speed ~ rate to this power beyond it: below 0 where speed falls, else 0. */
  readonly exponentBeyond: number;
}

/**
 * The rate beyond which more rate buys no speed, and how speed goes on; null where these data do not show one.
 * Where speed falls beyond, the rate is where the two lines meet: a flat line through what falls would begin too
 * early.
 * @param x log rates, in time order
 * @param y log speeds
 */
export const plateauOf = (x: readonly number[], y: readonly number[]): Plateau | null => {
  const bend = bestBend(x, y);
  if (bend === null) return null;
  const { ratio, flatShare, fallSds } = PLATEAU_SETTINGS;
  const flat = bend.slopeAbove <= flatShare * Math.min(bend.slopeBelow, 1 / 3);
  if (bend.ratio < ratio || !flat || !(bend.slopeBelow > 0)) return null;
  return bend.slopeAbove < -fallSds * bend.slopeAboveSd
    ? { rateSpm: Math.exp(bend.at), exponentBeyond: bend.slopeAbove }
    : { rateSpm: Math.exp(flatFrom(x, y, bend.at)), exponentBeyond: 0 };
};
