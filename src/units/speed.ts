import { formatClock, parseClock } from './clock-time.js';
import { UserError } from './user-error.js';

/** How people write a speed: seconds per 500 m, m/s, km/h, or knots. */
export type SpeedUnit = 'split' | 'mps' | 'kmh' | 'knots';

/** Metres per second in one knot: the international nautical mile is exactly 1852 m. */
export const MPS_PER_KNOT = 1852 / 3600;
const MPS_PER_KMH = 1000 / 3600;
const SPLIT_METRES = 500;

/**
 * Split of a speed.
 * @param speedMps speed, m/s, above 0
 * @returns seconds per 500 m
 * @example splitOfSpeed(5) // 100
 */
export const splitOfSpeed = (speedMps: number): number => SPLIT_METRES / speedMps;

/**
 * Speed of a split.
 * @param splitS seconds per 500 m, above 0
 * @returns m/s
 * @example speedOfSplit(100) // 5
 */
export const speedOfSplit = (splitS: number): number => SPLIT_METRES / splitS;

/**
 * A speed as a person reads it, without its unit.
 * @param speedMps speed, m/s
 * @example formatSpeed(6.25, 'split') // '1:20.0'
 */
export const formatSpeed = (speedMps: number, unit: SpeedUnit): string => {
  switch (unit) {
    case 'split':
      return formatClock(splitOfSpeed(speedMps), 1);
    case 'mps':
      return speedMps.toFixed(2);
    case 'kmh':
      return (speedMps / MPS_PER_KMH).toFixed(1);
    case 'knots':
      return (speedMps / MPS_PER_KNOT).toFixed(2);
  }
};

/** How each unit is headed in a table. */
export const SPEED_HEADING: Readonly<Record<SpeedUnit, string>> = {
  split: 'split /500 m',
  mps: 'speed m/s',
  kmh: 'speed km/h',
  knots: 'speed kn',
};

/** What no craft that is rowed or paddled does, m/s: the fastest hold 7 m/s over 200 m, and streams add to that. */
export const SPEED_LIMIT_MPS = Object.freeze([0.1, 12] as const);

/**
 * Holds a speed to what a craft can do.
 * @param text the speed as it was written, for the message
 * @throws UserError that names the limit
 */
export const possibleSpeed = (speedMps: number, text: string): number => {
  const [slowest, fastest] = SPEED_LIMIT_MPS;
  if (speedMps > fastest)
    throw new UserError(
      `${text} is ${speedMps.toFixed(1)} m/s, and no craft is faster than ${fastest} m/s (${formatSpeed(fastest, 'kmh')} km/h, ${formatSpeed(fastest, 'split')} /500 m)`,
    );
  if (speedMps < slowest)
    throw new UserError(
      `${text} is ${Number(speedMps.toPrecision(2))} m/s, slower than any craft under way (${slowest} m/s, ${formatSpeed(slowest, 'split')} /500 m)`,
    );
  return speedMps;
};

const SUFFIXES: readonly (readonly [RegExp, (value: number) => number])[] = [
  [/^([\d.]+)\s*(?:km\/h|kmh)$/i, (value) => value * MPS_PER_KMH],
  [/^([\d.]+)\s*(?:kn|knots?)$/i, (value) => value * MPS_PER_KNOT],
  [/^([\d.]+)\s*(?:m\/s|mps)$/i, (value) => value],
];

/**
 * Read a speed as a person writes it: a split (`1:50`, `1:50.4`, `110s`) or a speed with its unit
 * (`16.4km/h`, `8.8kn`, `4.55m/s`).
 * @returns m/s
 * @throws UserError where it is none of these, or no craft does it
 */
export const parseSpeed = (text: string): number => {
  const trimmed = text.trim();
  for (const [pattern, toMps] of SUFFIXES) {
    const found = pattern.exec(trimmed);
    if (found) {
      const speed = toMps(Number(found[1]));
      if (Number.isFinite(speed) && speed > 0) return possibleSpeed(speed, `"${trimmed}"`);
    }
  }
  const split = parseClock(trimmed);
  if (split !== null && split > 0) return possibleSpeed(speedOfSplit(split), `"${trimmed}"`);
  throw new UserError(
    `"${trimmed}" is not a speed: write a split such as 1:50.4 or 110s, or a speed with its unit such as 16.4km/h, 8.8kn or 4.55m/s`,
  );
};
