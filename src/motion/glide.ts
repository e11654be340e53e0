import { cholesky, whitened } from '../signal/index.js';
import type { SpeedWander } from './noise.js';
import { knotsWith, type Section } from './section.js';

/** A stretch in which a hull runs out without a stroke: what wanders in its logged speed is the receiver's. */
export interface Glide {
  /** From its first value, s. */
  readonly atS: Float64Array;
  /** Means of the logged speed over some tenths of a second, m/s, and the white variance of each, m²/s². */
  readonly speedMps: Float64Array;
  readonly whiteVariance: Float64Array;
  /** Functions of time of which the hull's own speed is a sum. */
  readonly shapes: readonly Float64Array[];
}

/** When a boat glides, and what is made of it. */
export const GLIDE_SETTINGS = Object.freeze({
  /** Within so many seconds, and so many samples, the speed lies on a straight line; a stroke takes 0.4 to 4 s. */
  windowS: 3,
  windowSamples: 8,
  /** A window of so many samples takes no longer than this, s: slower logs show no glide. */
  longestWindowS: 16,
  /** To so many sd of its white error, and this more, m/s. */
  straightSds: 1.6,
  straightMps: 0.03,
  /** Faster, m/s, the hull slows down too unevenly; slower than so many sd, the error folds. */
  fastestMps: 2.5,
  foldedSds: 4,
  /** Shortest and longest glide that is used, s; shortest mean, s, and most means of one; most glides. */
  leastS: 8,
  longestS: 40,
  meanS: 0.5,
  mostMeans: 40,
  most: 6,
  /** A hull's speed is its fitted one times a polynomial of so many terms; 3 to 5. */
  shapes: 4,
  /** Least white variance of a sample, m²/s²: digits. */
  leastVariance: 1e-4,
});

const dot = (a: Float64Array, b: Float64Array): number => {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
};

/** Least squares of a vector by others: the factored normal matrix, and what stands between. */
const fitOf = (vector: Float64Array, others: readonly Float64Array[]) => {
  const size = others.length;
  const matrix = new Float64Array(size * size);
  const moments = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    moments[i] = dot(others[i]!, vector);
    for (let j = 0; j <= i; j++) matrix[i * size + j] = dot(others[i]!, others[j]!);
  }
  const factored = cholesky(matrix, size);
  return factored && { factored, explained: whitened(factored, moments) };
};

/** Powers of time from -1 at the first to 1 at the last, each times a weight. */
const powersOf = (atS: Float64Array, weights: Float64Array): Float64Array[] => {
  const half = atS[atS.length - 1]! / 2;
  return Array.from({ length: GLIDE_SETTINGS.shapes }, (_, power) =>
    weights.map((weight, i) => weight * (atS[i]! / half - 1) ** power),
  );
};

/** A polynomial through the logarithms of the speeds, each weighted by its speed, as a speed. */
const fittedSpeed = (atS: Float64Array, speedMps: Float64Array): Float64Array | null => {
  const logs = speedMps.map((mps) => mps * Math.log(Math.max(0.01, mps)));
  const fit = fitOf(logs, powersOf(atS, speedMps));
  if (fit === null) return null;
  const { size, factor } = fit.factored;
  const coefficients = fit.explained;
  for (let i = size - 1; i >= 0; i--) {
    let sum = coefficients[i]!;
    for (let k = i + 1; k < size; k++) sum -= factor[k * size + i]! * coefficients[k]!;
    coefficients[i] = sum / factor[i * size + i]!;
  }
  const powers = powersOf(atS, new Float64Array(atS.length).fill(1));
  return atS.map((_, i) =>
    Math.exp(powers.reduce((sum, column, power) => sum + coefficients[power]! * column[i]!, 0)),
  );
};

/** Which samples of the speed lie in a glide. */
const glidingSamples = (section: Section, knots: Int32Array, whiteSdMps: number): Uint8Array => {
  const set = GLIDE_SETTINGS;
  const count = knots.length;
  const gliding = new Uint8Array(count);
  const limit = (set.straightSds * whiteSdMps + set.straightMps) ** 2;
  const at = (i: number): number => section.atS[knots[i]!]! - section.atS[knots[0]!]!;
  let [to, reached] = [0, 0];
  // Sums over the window from each sample on: moved along, a sample in and a sample out.
  let [n, t, tt, v, tv, vv] = [0, 0, 0, 0, 0, 0];
  const add = (i: number, sign: 1 | -1): void => {
    const mps = section.speedMps[knots[i]!]!;
    n += sign;
    t += sign * at(i);
    tt += sign * at(i) ** 2;
    v += sign * mps;
    tv += sign * at(i) * mps;
    vv += sign * mps * mps;
  };
  for (let from = 0; from < count; from++) {
    while (to < count && (n < set.windowSamples || at(to) - at(from) < set.windowS)) add(to++, 1);
    if (n >= set.windowSamples && at(to - 1) - at(from) <= set.longestWindowS) {
      const mean = v / n;
      const slope = (tv - t * mean) / (tt - (t * t) / n);
      const left = (vv - v * mean - slope * (tv - t * mean)) / (n - 2);
      if (left < limit && mean < set.fastestMps && mean > set.foldedSds * whiteSdMps) {
        gliding.fill(1, Math.max(from, reached), to);
        reached = to;
      }
    }
    add(from, -1);
  }
  return gliding;
};

/** Variance of the white error in glides, by second differences, m²/s². */
const whiteVarianceIn = ({ speedMps }: Section, knots: Int32Array, gliding: Uint8Array): number => {
  let [sum, used] = [0, 0];
  for (let i = 2; i < knots.length; i++) {
    if (!gliding[i] || !gliding[i - 1] || !gliding[i - 2]) continue;
    sum += (speedMps[knots[i]!]! - 2 * speedMps[knots[i - 1]!]! + speedMps[knots[i - 2]!]!) ** 2;
    used++;
  }
  return Math.max(GLIDE_SETTINGS.leastVariance, sum / Math.max(1, 6 * used));
};

/** One glide of samples, in means; null where it is too short. */
const glideOf = (section: Section, knots: Int32Array, variance: number): Glide | null => {
  const set = GLIDE_SETTINGS;
  const fromS = section.atS[knots[0]!]!;
  const spanS = Math.min(section.atS[knots[knots.length - 1]!]! - fromS, set.longestS);
  if (spanS < set.leastS) return null;
  const meanS = Math.max(set.meanS, spanS / set.mostMeans);
  const [times, speeds, variances]: [number[], number[], number[]] = [[], [], []];
  for (let j = 0; j < knots.length && section.atS[knots[j]!]! - fromS < spanS; ) {
    const untilS = section.atS[knots[j]!]! + meanS - 1e-6;
    let [sumS, sumMps, used] = [0, 0, 0];
    for (; j < knots.length && section.atS[knots[j]!]! < untilS; j++) {
      sumS += section.atS[knots[j]!]! - fromS;
      sumMps += section.speedMps[knots[j]!]!;
      used++;
    }
    times.push(sumS / used);
    speeds.push(sumMps / used);
    variances.push(variance / used);
  }
  const atS = Float64Array.from(times, (time) => time - times[0]!);
  const speedMps = Float64Array.from(speeds);
  const fitted = times.length > set.shapes ? fittedSpeed(atS, speedMps) : null;
  return (
    fitted && { atS, speedMps, whiteVariance: Float64Array.from(variances), shapes: powersOf(atS, fitted) }
  );
};

/**
 * The first glides of a section; a boat that is rowed has none.
 * @param whiteSdMps sd of the logged speed's white error, m/s
 */
export const glidesOf = (section: Section, whiteSdMps: number): readonly Glide[] => {
  const knots = knotsWith(section.hasSpeed);
  const gliding = glidingSamples(section, knots, whiteSdMps);
  const variance = whiteVarianceIn(section, knots, gliding);
  const found: Glide[] = [];
  for (let from = 0; from < knots.length && found.length < GLIDE_SETTINGS.most; from++) {
    if (!gliding[from]) continue;
    let to = from;
    while (to < knots.length && gliding[to]) to++;
    const glide = glideOf(section, knots.subarray(from, to), variance);
    if (glide !== null) found.push(glide);
    from = to;
  }
  return found;
};

/**
 * Log-likelihood of a wandering error of the speed in a glide, up to what all suppositions share: the hull slows down
 * as a sum of some shapes of unknown size (restricted likelihood: Patterson & Thompson 1971, Biometrika 58:545).
 */
export const glideLikelihood = (glide: Glide, { sdMps, correlationS }: SpeedWander): number => {
  const { atS, speedMps, whiteVariance, shapes } = glide;
  const size = atS.length;
  const matrix = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < i; j++)
      matrix[i * size + j] = sdMps ** 2 * Math.exp((atS[j]! - atS[i]!) / correlationS);
    matrix[i * size + i] = sdMps ** 2 + whiteVariance[i]!;
  }
  const factored = cholesky(matrix, size);
  if (factored === null) return Number.NEGATIVE_INFINITY;
  const vector = whitened(factored, speedMps);
  const fit = fitOf(
    vector,
    shapes.map((shape) => whitened(factored, shape)),
  );
  if (fit === null) return Number.NEGATIVE_INFINITY;
  const squares = dot(vector, vector) - dot(fit.explained, fit.explained);
  return -(factored.logDeterminant + fit.factored.logDeterminant + squares) / 2;
};
