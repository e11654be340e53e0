/** Random numbers of a seed: the same seed gives the same numbers, everywhere. */
export interface Random {
  /** Even over 0 to 1. */
  readonly uniform: () => number;
  /** Normal, mean 0, sd 1. */
  readonly normal: () => number;
  /** Student's t of `freedom` degrees (above 2), scaled to sd 1: heavier tails than normal. */
  readonly heavy: (freedom: number) => number;
}

/**
 * A generator of the sfc32 family (Doty-Humphrey, PractRand).
 * @param seed whole number
 */
export const makeRandom = (seed: number): Random => {
  let a = 0x9e3779b9 ^ seed;
  let b = 0x243f6a88;
  let c = 0xb7e15162 ^ (seed << 11);
  let counter = 1;
  const next = (): number => {
    const sum = (a + b + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = ((c << 21) | (c >>> 11)) + sum;
    c |= 0;
    return sum >>> 0;
  };
  for (let i = 0; i < 16; i++) next();
  const uniform = () => (next() + 0.5) / 4294967296;
  let kept: number | null = null;
  const normal = (): number => {
    if (kept !== null) {
      const value = kept;
      kept = null;
      return value;
    }
    // Marsaglia's polar method.
    for (;;) {
      const x = 2 * uniform() - 1;
      const y = 2 * uniform() - 1;
      const square = x * x + y * y;
      if (square >= 1 || square === 0) continue;
      const factor = Math.sqrt((-2 * Math.log(square)) / square);
      kept = y * factor;
      return x * factor;
    }
  };
  const heavy = (freedom: number): number => {
    let square = 0;
    for (let i = 0; i < freedom; i++) square += normal() ** 2;
    return (normal() / Math.sqrt(square / freedom)) * Math.sqrt((freedom - 2) / freedom);
  };
  return { uniform, normal, heavy };
};
