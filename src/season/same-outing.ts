import type { WarningRow } from '../contract/envelope.js';
import type { WarningCode } from '../contract/severity.js';
import { geodesicBetween } from '../geodesy/index.js';
import type { LogSummary } from './log-summary.js';
import { isSameRowing, laidOn, likenessAt, TRACE_SETTINGS } from './rate-trace.js';

/** When two logs are taken for one outing. */
export const SAME_OUTING_SETTINGS = Object.freeze({
  /** Share of the shorter log's minutes that both have: one device may be switched on late. */
  sharedMinutes: 0.5,
  /** Fewest minutes in common, min: below, two boats may lie at one stage by chance. */
  leastMinutes: 5,
  /** Median distance between the two, m: two receivers in one boat differ by 5 to 10, boats side by side by 15 and more. */
  medianM: 12,
  /** … where both are closer than this, m, it is one log under two names, whatever crew they are said to be of; 1 to 3. */
  oneLogM: 2,
  /** … and where only the folders name other crews or crafts, m; 4 to 8. */
  otherFolderM: 6,
});

/** The outings of a season, each once. */
export interface Distinct {
  readonly kept: readonly LogSummary[];
  /** Logs that stand for an outing that another log holds. */
  readonly doubles: readonly LogSummary[];
  /** Logs without a clock that lie on no other: they may be an outing of their own or not. */
  readonly clockless: readonly LogSummary[];
  readonly warnings: readonly WarningRow[];
}

const differ = (a: string | null, b: string | null): boolean => a !== null && b !== null && a !== b;

const medianOf = (values: number[]): number => values.sort((a, b) => a - b)[values.length >> 1]!;

/** Median distance between two logs at the same minutes, m; null where they share too few. */
const metresApart = (first: LogSummary, second: LogSummary): number | null => {
  const places = new Map(second.minutes.map((place) => [place.minute, place]));
  const apart = first.minutes.flatMap((place) => {
    const other = places.get(place.minute);
    return other === undefined ? [] : [geodesicBetween(place, other).distanceM];
  });
  const least = Math.max(
    SAME_OUTING_SETTINGS.leastMinutes,
    SAME_OUTING_SETTINGS.sharedMinutes * Math.min(first.minutes.length, second.minutes.length),
  );
  return apart.length < least ? null : medianOf(apart);
};

/** Whether two logs with clocks rowed and rested at the same moments, at the same rates. */
const sameMoments = (first: LogSummary, second: LogSummary): boolean => {
  const [start, other] = [first.outing.start_time, second.outing.start_time];
  if (start === null || other === null) return false;
  const shiftS = (Date.parse(other) - Date.parse(start)) / 1000;
  return isSameRowing(likenessAt(first.rates, second.rates, Math.round(shiftS / TRACE_SETTINGS.stepS)));
};

/**
 * Whether two logs tell of one boat on one outing: they were in the same place at the same moments; or, where one
 * of them holds no positions, they rowed at the same moments and rates. What the outing sheet says of crew and
 * craft is believed; the names of folders less, those of files not.
 */
export const sameOuting = (first: LogSummary, second: LogSummary): boolean => {
  const { medianM, oneLogM, otherFolderM } = SAME_OUTING_SETTINGS;
  const others = differ(first.givenCrew, second.givenCrew) || differ(first.givenCraft, second.givenCraft);
  const named =
    differ(first.outing.crew, second.outing.crew) || differ(first.outing.craft, second.outing.craft);
  if (first.minutes.length > 0 && second.minutes.length > 0) {
    const apartM = metresApart(first, second);
    return apartM !== null && apartM <= (others ? oneLogM : named ? otherFolderM : medianM);
  }
  return !others && !named && sameMoments(first, second);
};

const SOURCES = [null, 'cadence', 'speed', 'imu'] as const;

/** Better logs first: with positions, strokes from the better source, positions more often, the longer log. */
const byWorth = (a: LogSummary, b: LogSummary): number =>
  Number(b.minutes.length > 0) - Number(a.minutes.length > 0) ||
  SOURCES.indexOf(b.strokeSource) - SOURCES.indexOf(a.strokeSource) ||
  (b.positionRateHz ?? 0) - (a.positionRateHz ?? 0) ||
  b.outing.duration_s - a.outing.duration_s ||
  (a.outing.file < b.outing.file ? -1 : 1);

const warning = (code: WarningCode, { outing }: LogSummary, message: string): WarningRow => ({
  code,
  file: outing.file,
  where: null,
  message,
});

/** Hours of the clock in which a log ran. */
const hoursOf = ({ outing }: LogSummary): readonly number[] => {
  if (outing.start_time === null) return [];
  const startS = Date.parse(outing.start_time) / 1000;
  const [from, to] = [Math.floor(startS / 3600), Math.floor((startS + outing.duration_s) / 3600)];
  return Array.from({ length: to - from + 1 }, (_, i) => from + i);
};

/**
 * Count an outing once that several devices logged: the better log is kept, and it is said. A log without a clock
 * is laid on those that have one; where it lies on none it is left out, for it may be a double of any.
 */
export const distinctOutings = (summaries: readonly LogSummary[]): Distinct => {
  const kept: LogSummary[] = [];
  const doubles: LogSummary[] = [];
  const warnings: WarningRow[] = [];
  const byHour = new Map<number, LogSummary[]>();
  const dated = summaries.filter(({ outing }) => outing.start_time !== null);
  for (const summary of [...dated].sort(byWorth)) {
    const hours = hoursOf(summary);
    const near = new Set(hours.flatMap((hour) => byHour.get(hour) ?? []));
    const twin = [...near].find((other) => sameOuting(other, summary));
    if (twin !== undefined) {
      doubles.push(summary);
      warnings.push(
        warning(
          'same-outing',
          summary,
          `The same outing is in ${twin.outing.file}, which holds more; this log is not counted.`,
        ),
      );
      continue;
    }
    kept.push(summary);
    for (const hour of hours) {
      const known = byHour.get(hour);
      if (known === undefined) byHour.set(hour, [summary]);
      else known.push(summary);
    }
  }
  const order = new Map(summaries.map((summary, i) => [summary, i]));
  kept.sort((a, b) => order.get(a)! - order.get(b)!);
  const clockless: LogSummary[] = [];
  for (const summary of summaries) {
    if (summary.outing.start_time !== null) continue;
    const twin = kept.find((other) => laidOn(other, summary) !== null);
    (twin === undefined ? clockless : doubles).push(summary);
    warnings.push(
      twin === undefined
        ? warning(
            'no-clock',
            summary,
            'The log has no clock and its work matches no other log, so it cannot be known whether it is an outing of its own: it is listed and not counted.',
          )
        : warning(
            'same-outing',
            summary,
            `The log has no clock; its work and its rests match those of ${twin.outing.file} where that log is at ${new Date(1000 * laidOn(twin, summary)!).toISOString().slice(0, 16)}Z, so it is taken for the same outing and not counted.`,
          ),
    );
  }
  return { kept, doubles, clockless, warnings };
};
