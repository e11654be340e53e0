/** A source of random numbers that gives the same row for the same start, everywhere. */
export interface Random {
  /** Evenly spread over 0 to 1, 1 not included. */
  readonly uniform: () => number;
  /** Normal, mean 0, sd 1. */
  readonly normal: () => number;
}

/** One step of a 32-bit mixer, to spread a start over the state (murmur3 finaliser, Appleby 2011). */
const mixed = (value: number): number => {
  let hash = value >>> 0;
  hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
  return (hash ^ (hash >>> 16)) >>> 0;
};

/**
 * A generator with 128 bits of state: xoshiro128** 1.1 (Blackman & Vigna 2021, ACM TOMS 47(4):36); normal
 * numbers by the polar method (Marsaglia & Bray 1964).
 * @param start any whole number
 * @param stream makes generators of one start independent: one a purpose, so that adding a sensor changes
 *   nothing else
 */
export const randomFrom = (start: number, stream: string): Random => {
  let seed = mixed(start + 0x9e3779b9);
  for (let i = 0; i < stream.length; i++) seed = mixed(seed ^ (stream.charCodeAt(i) + 0x9e3779b9 * (i + 1)));
  const state = [1, 2, 3, 4].map((step) => mixed(seed + Math.imul(0x9e3779b9, step)));
  let [a, b, c, d] = state as [number, number, number, number];
  if ((a | b | c | d) === 0) a = 1;
  const bits = (): number => {
    const product = Math.imul(b, 5);
    const result = Math.imul((product << 7) | (product >>> 25), 9);
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = (d << 11) | (d >>> 21);
    return result >>> 0;
  };
  const uniform = () => bits() / 4294967296;
  let spare: number | null = null;
  const normal = (): number => {
    if (spare !== null) {
      const kept = spare;
      spare = null;
      return kept;
    }
    for (;;) {
      const x = bits() / 2147483648 - 1;
      const y = bits() / 2147483648 - 1;
      const square = x * x + y * y;
      if (square > 0 && square < 1) {
        const scale = Math.sqrt((-2 * Math.log(square)) / square);
        spare = y * scale;
        return x * scale;
      }
    }
  };
  return { uniform, normal };
};
