/**
 * What an acceleration that is a first-order Gauss-Markov process does to distance, speed and itself over a
 * step (Singer 1970, IEEE Trans. AES 6:473-483).
 */
export interface SurgeNoise {
  /** Share of the acceleration that is left after the step. */
  readonly kept: number;
  /** Speed and distance that one m/s² at the start makes. */
  readonly toSpeed: number;
  readonly toDistance: number;
  /** Covariances of distance (p), speed (v) and acceleration (a), per m²/s⁴ of acceleration variance. */
  readonly pp: number;
  readonly pv: number;
  readonly pa: number;
  readonly vv: number;
  readonly va: number;
  readonly aa: number;
}

/** Below this share of the correlation time the closed forms lose digits, and a series is good to 1 %. */
const SHORT = 0.02;

/**
 * @param stepS length of the step, s
 * @param correlationS correlation time of the acceleration, s
 */
export const surgeNoise = (stepS: number, correlationS: number): SurgeNoise => {
  const x = stepS / correlationS;
  const kept = Math.exp(-x);
  const toSpeed = correlationS * (1 - kept);
  const t = correlationS;
  const shared = { kept, toSpeed, toDistance: t * t * (kept - 1 + x) };
  if (x < SHORT)
    return {
      ...shared,
      pp: (t ** 4 * x ** 5) / 10,
      pv: (t ** 3 * x ** 4) / 4,
      pa: (t ** 2 * x ** 3) / 3,
      vv: (t ** 2 * 2 * x ** 3) / 3,
      va: t * x ** 2,
      aa: 2 * x,
    };
  const square = kept * kept;
  return {
    ...shared,
    pp: t ** 4 * (1 - square + 2 * x + (2 * x ** 3) / 3 - 2 * x * x - 4 * x * kept),
    pv: t ** 3 * (square + 1 - 2 * kept + 2 * x * kept - 2 * x + x * x),
    pa: t ** 2 * (1 - square - 2 * x * kept),
    vv: t ** 2 * (4 * kept - 3 - square + 2 * x),
    va: t * (square + 1 - 2 * kept),
    aa: 1 - square,
  };
};
