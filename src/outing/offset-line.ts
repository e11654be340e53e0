import { median, robustScale } from '../signal/index.js';
import type { ClockFit } from './join-logs.js';

const PPM = 1e-6;

/** A straight line of offset over time on the main clock. */
export interface Line {
  readonly middleS: number;
  readonly offsetS: number;
  /** Change of the offset, seconds a second. */
  readonly slope: number;
  readonly offsetSdS: number;
  readonly slopeSd: number;
}

/** Theil-Sen line through the offsets of windows; its sd from the scatter about it. */
export const lineThrough = (points: readonly (readonly [number, number])[], leastSdS: number): Line => {
  const middleS = median(points.map(([at]) => at));
  const slopes: number[] = [];
  for (const [i, [at, offset]] of points.entries())
    for (const [later, other] of points.slice(i + 1))
      if (later > at) slopes.push((other - offset) / (later - at));
  const slope = slopes.length === 0 ? 0 : median(slopes);
  const offsetS = median(points.map(([at, offset]) => offset - slope * (at - middleS)));
  const scatter = Math.max(
    leastSdS,
    robustScale(points.map(([at, offset]) => offset - offsetS - slope * (at - middleS))),
  );
  const spread = points.reduce((sum, [at]) => sum + (at - middleS) ** 2, 0);
  // A median is pi / 2 less efficient than a mean.
  const sd = scatter * Math.sqrt(Math.PI / 2);
  return {
    middleS,
    offsetS,
    slope,
    offsetSdS: sd / Math.sqrt(points.length),
    slopeSd: sd / Math.sqrt(spread),
  };
};

/** Offset that a line gives at a moment on the main clock, s. */
export const onLine = (line: Pick<Line, 'middleS' | 'offsetS' | 'slope'>, atS: number): number =>
  line.offsetS + line.slope * (atS - line.middleS);

/** The clock that a line of offsets over main time means: u = (t - start)(1 + drift). */
export const clockOf = (line: Line): ClockFit => {
  // offset(t) = t - u, so u = t - offset(t): its slope is 1 - line.slope, and u = 0 where t = offset(t).
  const startS = (line.offsetS - line.slope * line.middleS) / (1 - line.slope);
  return { offsetS: startS, driftPpm: -line.slope / PPM };
};
