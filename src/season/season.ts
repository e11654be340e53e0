import type { SeasonOutingRow, SeasonResult } from '../contract/season.js';
import { dayName, type LocalDate, localDate, monthName, weekName } from '../units/local-date.js';
import { heartRateZones, polarizationIndex, zoneWarnings } from './heart-rate-zones.js';
import type { LogSummary } from './log-summary.js';
import { distinctOutings } from './same-outing.js';
import { SEASON_BESTS, seasonBests } from './season-bests.js';
import { bandsOf, totalsOf } from './totals.js';

/** How a season is added up. */
export interface SeasonAsk {
  /** IANA zone of the calendar. */
  readonly zone: string;
  /** First and last day counted, as 2026-03-01; null: no bound. */
  readonly since: string | null;
  readonly until: string | null;
  /** Day on which a season begins, as 09-01: only the season of the last outing is counted. */
  readonly seasonFrom: string | null;
  readonly groupBy: 'crew' | 'craft' | 'month' | 'folder' | null;
  /** Rate bands also for this many last outings. */
  readonly last: number | null;
  /** Bounds of heart-rate zones, bpm. */
  readonly zonesBpm: readonly number[] | null;
}

interface Dated extends LogSummary {
  /** Null where the log has no clock. */
  readonly date: LocalDate | null;
}

const dated = (summary: LogSummary, zone: string): Dated => {
  const time = summary.outing.start_time;
  return { ...summary, date: time === null ? null : localDate(Date.parse(time) / 1000, zone) };
};

/** Summaries by a name, in the order of the names; those without one last. */
const groupsBy = <Item>(
  items: readonly Item[],
  name: (item: Item) => string | null,
): [string | null, Item[]][] => {
  const groups = new Map<string | null, Item[]>();
  for (const item of items) groups.set(name(item), [...(groups.get(name(item)) ?? []), item]);
  return [...groups].sort(([a], [b]) => (a === null ? 1 : b === null ? -1 : a < b ? -1 : 1));
};

const outingRowOf = ({ outing }: LogSummary): SeasonOutingRow => ({
  file: outing.file,
  crew: outing.crew,
  craft: outing.craft,
  place: outing.place,
  start_time: outing.start_time,
  distance_m: outing.distance_m,
  rowing_s: outing.rowing_s,
  stroke_count: outing.stroke_count,
});

const folderOf = (file: string): string => file.split(/[/\\]/).slice(0, -1).join('/') || '.';

const groupName = ({ outing, date }: Dated, by: NonNullable<SeasonAsk['groupBy']>): string | null => {
  switch (by) {
    case 'crew':
      return outing.crew;
    case 'craft':
      return outing.craft;
    case 'month':
      return date === null ? null : monthName(date);
    case 'folder':
      return folderOf(outing.file);
  }
};

/** First day of the season that holds a day: the last `MM-DD` on or before it. */
const seasonStart = (day: string, from: string): string => {
  const year = Number(day.slice(0, 4));
  return `${day.slice(5) >= from ? year : year - 1}-${from}`;
};

const boundsOf = (days: readonly string[], ask: SeasonAsk): [string | null, string | null] => {
  const latest = [...days]
    .filter((day) => ask.until === null || day <= ask.until)
    .sort()
    .at(-1);
  if (ask.seasonFrom === null || latest === undefined) return [ask.since, ask.until];
  const start = seasonStart(latest, ask.seasonFrom);
  return [ask.since === null || ask.since < start ? start : ask.since, ask.until];
};

/**
 * What a season adds up to. Every outing counts once, in one week and one month; work on land is kept apart.
 * @param summaries one a log, in any order
 */
export const seasonOf = (summaries: readonly LogSummary[], ask: SeasonAsk): SeasonResult => {
  const { kept, warnings } = distinctOutings(summaries);
  const all = kept.map((summary) => dated(summary, ask.zone));
  const [since, until] = boundsOf(
    all.flatMap(({ date }) => (date === null ? [] : [dayName(date)])),
    ask,
  );
  const bounded = since !== null || until !== null;
  const within = all.filter(({ date }) => {
    if (date === null) return !bounded;
    const day = dayName(date);
    return (since === null || day >= since) && (until === null || day <= until);
  });
  const ordered = within.sort((a, b) => ((a.outing.start_time ?? '') < (b.outing.start_time ?? '') ? -1 : 1));
  const water = ordered.filter(({ outing }) => outing.place === 'water');
  const zones = ask.zonesBpm === null ? null : heartRateZones(water, ask.zonesBpm);
  const index =
    zones === null ? null : polarizationIndex(zones.map(({ share_pct }) => (share_pct ?? 0) / 100));
  return {
    schema: 'thole/season/1',
    files: ordered.map(({ outing }) => outing.file),
    warnings: [
      ...ordered.flatMap((summary) => summary.warnings),
      ...warnings,
      ...undatedWarnings(all, bounded),
      ...emptyWarnings(all, within.length),
      ...(zones === null || within.length === 0 ? [] : zoneWarnings(zones, index)),
    ],
    since,
    until,
    totals: totalsOf(water),
    land_totals: totalsOf(ordered.filter(({ outing }) => outing.place === 'land')),
    weeks: groupsBy(water, ({ date }) => (date === null ? null : weekName(date))).map(([week, outings]) => ({
      week,
      ...totalsOf(outings),
      rate_bands: bandsOf(outings),
    })),
    months: groupsBy(water, ({ date }) => (date === null ? null : monthName(date))).map(
      ([month, outings]) => ({
        month,
        ...totalsOf(outings),
      }),
    ),
    rate_bands: bandsOf(water),
    last: ask.last === null ? null : lastOf(water.slice(-ask.last)),
    bests: seasonBests(water, SEASON_BESTS),
    longest: longestOf(water),
    heart_rate_zones: zones,
    polarization_index: index,
    outings: ordered.map(outingRowOf),
    groups:
      ask.groupBy === null
        ? []
        : groupsBy(water, (summary) => groupName(summary, ask.groupBy!)).map(([group, outings]) => ({
            group,
            ...totalsOf(outings),
            rate_bands: bandsOf(outings),
          })),
  };
};

const lastOf = (outings: readonly LogSummary[]): NonNullable<SeasonResult['last']> => ({
  outing_count: outings.length,
  rate_bands: bandsOf(outings),
});

const longestOf = (outings: readonly LogSummary[]): SeasonOutingRow | null => {
  const [longest] = outings
    .filter(({ outing }) => outing.distance_m !== null)
    .sort((a, b) => b.outing.distance_m! - a.outing.distance_m!);
  return longest === undefined ? null : outingRowOf(longest);
};

const emptyWarnings = (all: readonly Dated[], counted: number): SeasonResult['warnings'] => {
  const days = all.flatMap(({ date }) => (date === null ? [] : [dayName(date)])).sort();
  if (counted > 0 || days.length === 0) return [];
  return [
    {
      code: 'no-outing',
      file: null,
      where: null,
      message: `No outing lies between the days asked for; the logs are of ${days[0]} to ${days.at(-1)}.`,
    },
  ];
};

const undatedWarnings = (all: readonly Dated[], bounded: boolean): SeasonResult['warnings'] =>
  all
    .filter(({ date }) => date === null)
    .map(({ outing }) => ({
      code: 'no-date',
      file: outing.file,
      where: null,
      message: bounded
        ? 'The log has no clock, so it cannot be placed between the days asked for and is left out.'
        : 'The log has no clock, so it is in the totals but in no week or month of the calendar.',
    }));
