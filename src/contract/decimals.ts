/**
 * Digits after the point in data output, by the unit that a key ends in; the longest ending that fits counts.
 * An sd takes the digits of its neighbour.
 */
const DECIMALS: Readonly<Record<string, number>> = {
  _s: 3,
  _s_per_500m: 2,
  _m: 2,
  _mps: 4,
  _mps2: 4,
  _spm: 2,
  _pct: 2,
  _pct_per_month: 2,
  _bpm: 1,
  _deg: 1,
  lat_deg: 7,
  lon_deg: 7,
  _hz: 3,
  _ppm: 1,
  _lengths: 2,
  _count: 0,
  _variation: 4,
  _stroke_m: 3,
  confidence: 3,
  exponent: 4,
  exponent_beyond: 4,
  exponent_low: 4,
  exponent_high: 4,
  ratio: 2,
  _index: 3,
  _axis: 4,
  value: 6,
  limit: 6,
};

const ENDINGS = Object.keys(DECIMALS).sort((a, b) => b.length - a.length);

/** Digits after the point for a key, or null where its numbers are left as they are (whole numbers, names). */
export const decimalsOf = (key: string): number | null => {
  const ending = ENDINGS.find((candidate) => key.endsWith(candidate));
  return ending === undefined ? null : DECIMALS[ending]!;
};

/**
 * A result with every number rounded to the digits of its key, and nothing else changed.
 * @throws Error (ours) where a number is NaN or infinite: what is unknown is null
 */
export const settle = <Result>(result: Result): Result => settleAt(result, '') as Result;

const settleAt = (value: unknown, key: string): unknown => {
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) throw new Error(`${key} is ${value}: what is unknown must be null`);
    const decimals = decimalsOf(key);
    return decimals === null ? value : Number(value.toFixed(decimals)) + 0;
  }
  if (Array.isArray(value)) return value.map((item) => settleAt(item, key));
  if (value !== null && typeof value === 'object')
    return Object.fromEntries(Object.entries(value).map(([name, item]) => [name, settleAt(item, name)]));
  return value;
};
