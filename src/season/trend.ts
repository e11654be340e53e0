import { median } from '../signal/index.js';
import { theilSen } from '../signal/theil-sen.js';
import { PROGRESS_SETTINGS, PUBLISHED_DAY_PCT } from './progress-settings.js';

/** One day's figure against the usual, %. */
export interface DayFigure {
  /** Days since any day. */
  readonly day: number;
  readonly pct: number;
  /** sd of `pct` by the logs, %. */
  readonly sdPct: number;
}

/** How figures go over a season. */
export interface Trend {
  /** Percent a month; null, as its bounds, where there are too few days. */
  readonly pctPerMonth: number | null;
  readonly lowPctPerMonth: number | null;
  readonly highPctPerMonth: number | null;
  readonly verdict: 'faster' | 'slower' | 'not_shown';
  /** Smallest trend that four of five such seasons would show, percent a month; null where none would. */
  readonly smallestShownPctPerMonth: number | null;
  /** How much one day differs from another beyond the trend and the logs, sd, %. */
  readonly dayPct: number;
  readonly dayBy: 'season' | 'published';
  /** The line at a day, %. */
  readonly at: (day: number) => number | null;
}

/** Normal sd / median absolute deviation (Rousseeuw & Croux 1993). */
const MAD_TO_SD = 1.4826;

/** Variance of the slope beyond that of independent days: first-order correlation of the days' residuals. */
const inflationOf = (residuals: readonly number[]): number => {
  const squares = residuals.reduce((sum, value) => sum + value * value, 0);
  const products = residuals.slice(1).reduce((sum, value, i) => sum + value * residuals[i]!, 0);
  const correlation = squares === 0 ? 0 : Math.min(0.9, Math.max(0, products / squares));
  // Beyond chance only: 1 sd of the correlation of independent days is 1 / sqrt(n) (Bartlett 1946).
  const beyond = Math.max(0, correlation - 1 / Math.sqrt(residuals.length));
  return (1 + beyond) / (1 - beyond);
};

/** sd of days about the line without that of the logs, %. */
const daySd = (days: readonly DayFigure[], residuals: readonly number[]): number => {
  const seen = MAD_TO_SD * median(residuals.map(Math.abs));
  const logs = median(days.map(({ sdPct }) => sdPct));
  // Two unknowns are taken from the days.
  const freedom = days.length / (days.length - 2);
  return Math.sqrt(Math.max(0, seen * seen * freedom - logs * logs));
};

/** Too few days for a trend: a slope without an interval would look like one. */
const few = (days: readonly DayFigure[]): Trend => {
  const { sds, powerSds, monthDays } = PROGRESS_SETTINGS;
  const mean = days.reduce((sum, { day }) => sum + day, 0) / days.length;
  const spread = Math.sqrt(days.reduce((sum, { day }) => sum + ((day - mean) / monthDays) ** 2, 0));
  const sdPct = Math.hypot(PUBLISHED_DAY_PCT, median(days.map((day) => day.sdPct)));
  return {
    pctPerMonth: null,
    lowPctPerMonth: null,
    highPctPerMonth: null,
    verdict: 'not_shown',
    smallestShownPctPerMonth: spread > 0 && days.length > 2 ? ((sds + powerSds) * sdPct) / spread : null,
    dayPct: PUBLISHED_DAY_PCT,
    dayBy: 'published',
    at: () => null,
  };
};

/**
 * The trend of a season: Theil-Sen with Sen's interval, at 98 %, widened where neighbouring days go together. It is
 * claimed where the interval leaves out no change.
 * @param days in time order, one figure a day, at least one
 */
export const trendOf = (days: readonly DayFigure[]): Trend => {
  const { sds, powerSds, fewestDays, monthDays } = PROGRESS_SETTINGS;
  const x = days.map(({ day }) => day / monthDays);
  const y = days.map(({ pct }) => pct);
  const line = theilSen(x, y, 1, sds);
  if (line === null || days.length < fewestDays) return few(days);
  const at = (day: number) => line.intercept + (line.slope * day) / monthDays;
  const residuals = y.map((value, i) => value - line.intercept - line.slope * x[i]!);
  const { slopeLow, slopeHigh } = theilSen(x, y, inflationOf(residuals), sds)!;
  return {
    pctPerMonth: line.slope,
    lowPctPerMonth: slopeLow,
    highPctPerMonth: slopeHigh,
    verdict: slopeLow > 0 ? 'faster' : slopeHigh < 0 ? 'slower' : 'not_shown',
    smallestShownPctPerMonth: ((slopeHigh - slopeLow) / 2) * (1 + powerSds / sds),
    dayPct: daySd(days, residuals),
    dayBy: 'season',
    at,
  };
};
