import type { WarningRow } from '../contract/envelope.js';
import { geodesicBetween } from '../geodesy/index.js';
import type { LogSummary } from './log-summary.js';

/** When two logs are taken for one outing. */
export const SAME_OUTING_SETTINGS = Object.freeze({
  /** Share of the shorter log's minutes that both have: one device may be switched on late. */
  sharedMinutes: 0.5,
  /** Fewest minutes in common, min: below, two boats may lie at one stage by chance. */
  leastMinutes: 5,
  /** Median distance between the two, m: two receivers in one boat differ by 5 to 10, boats side by side by 15 and more. */
  medianM: 12,
});

/** The outings of a season, each once. */
export interface Distinct {
  readonly kept: readonly LogSummary[];
  readonly warnings: readonly WarningRow[];
}

const differ = (a: string | null, b: string | null): boolean => a !== null && b !== null && a !== b;

const medianOf = (values: number[]): number => values.sort((a, b) => a - b)[values.length >> 1]!;

/** Whether two logs tell of one boat on one outing. */
export const sameOuting = (first: LogSummary, second: LogSummary): boolean => {
  if (differ(first.outing.crew, second.outing.crew) || differ(first.outing.craft, second.outing.craft))
    return false;
  const places = new Map(second.minutes.map((place) => [place.minute, place]));
  const apart = first.minutes.flatMap((place) => {
    const other = places.get(place.minute);
    return other === undefined ? [] : [geodesicBetween(place, other).distanceM];
  });
  const least = Math.max(
    SAME_OUTING_SETTINGS.leastMinutes,
    SAME_OUTING_SETTINGS.sharedMinutes * Math.min(first.minutes.length, second.minutes.length),
  );
  return apart.length >= least && medianOf(apart) <= SAME_OUTING_SETTINGS.medianM;
};

const SOURCES = [null, 'cadence', 'speed', 'imu'] as const;

/** Better logs first: strokes from the better source, then positions more often, then the longer log. */
const byWorth = (a: LogSummary, b: LogSummary): number =>
  SOURCES.indexOf(b.strokeSource) - SOURCES.indexOf(a.strokeSource) ||
  (b.positionRateHz ?? 0) - (a.positionRateHz ?? 0) ||
  b.outing.duration_s - a.outing.duration_s ||
  (a.outing.file < b.outing.file ? -1 : 1);

/**
 * Count an outing once that two devices logged: the better log is kept, and it is said. Logs without a clock or
 * without positions cannot be compared and are all kept.
 */
export const distinctOutings = (summaries: readonly LogSummary[]): Distinct => {
  const kept: LogSummary[] = [];
  const warnings: WarningRow[] = [];
  const byHour = new Map<number, LogSummary[]>();
  for (const summary of [...summaries].sort(byWorth)) {
    const hours = [...new Set(summary.minutes.map(({ minute }) => Math.floor(minute / 60)))];
    const twin = hours.flatMap((hour) => byHour.get(hour) ?? []).find((other) => sameOuting(other, summary));
    if (twin !== undefined) {
      warnings.push({
        code: 'same-outing',
        file: summary.outing.file,
        where: null,
        message: `The same outing is in ${twin.outing.file}, which holds more; this log is not counted.`,
      });
      continue;
    }
    kept.push(summary);
    for (const hour of hours) byHour.set(hour, [...(byHour.get(hour) ?? []), summary]);
  }
  const order = new Map(summaries.map((summary, i) => [summary, i]));
  return { kept: kept.sort((a, b) => order.get(a)! - order.get(b)!), warnings };
};
