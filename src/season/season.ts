import type { DrawnTotal } from '../contract/drawn.js';
import type { SeasonOutingRow, SeasonResult } from '../contract/season.js';
import { grouped } from '../units/grouped.js';
import { dayName, type LocalDate, localDate, monthName, weekName } from '../units/local-date.js';
import { splitOfSpeed } from '../units/speed.js';
import { heartRateZones, polarizationIndex, zoneWarnings } from './heart-rate-zones.js';
import type { LogSummary } from './log-summary.js';
import { seasonProgress } from './progress.js';
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
  /** `boats`: logs of other sports are listed and not counted; `any`: they count. */
  readonly sport: 'boats' | 'any';
  readonly groupBy: 'crew' | 'craft' | 'month' | 'folder' | null;
  /** Rate bands also for this many last outings. */
  readonly last: number | null;
  /** Bounds of heart-rate zones, bpm. */
  readonly zonesBpm: readonly number[] | null;
  /** Whether pictures are drawn: distance added up besides. */
  readonly drawn?: boolean;
}

type KeptOut = SeasonOutingRow['kept_out'];

/** A log with its day, and why it does not count; null where it does. */
interface Listed extends LogSummary {
  /** Null where the log has no clock. */
  readonly date: LocalDate | null;
  readonly keptOut: KeptOut;
}

/** An outing that counts; it has a day. */
type Dated = Listed & { readonly date: LocalDate };

const isDated = (summary: Listed): summary is Dated => summary.date !== null;

const listed = (summary: LogSummary, zone: string, keptOut: KeptOut): Listed => {
  const time = summary.outing.start_time;
  return {
    ...summary,
    date: time === null ? null : localDate(Date.parse(time) / 1000, zone),
    keptOut: keptOut ?? (summary.outing.place === 'land' ? 'on_land' : null),
  };
};

/** Summaries by a name, in the order of the names; those without one last. */
const groupsBy = <Item>(
  items: readonly Item[],
  name: (item: Item) => string | null,
): [string | null, Item[]][] =>
  [...grouped(items, name)].sort(([a], [b]) => (a === null ? 1 : b === null ? -1 : a < b ? -1 : 1));

/** Whether any figure of the season is made of a log, or would be if it could be dated: only then its doubts matter. */
const isOfTheSeason = ({ keptOut }: Listed): boolean =>
  keptOut !== 'same_outing' && keptOut !== 'other_sport';

const outingRowOf = ({ outing, sport, keptOut }: Listed): SeasonOutingRow => ({
  file: outing.file,
  crew: outing.crew,
  craft: outing.craft,
  place: outing.place,
  kept_out: keptOut,
  sport,
  start_time: outing.start_time,
  distance_m: outing.distance_m,
  rowing_s: outing.rowing_s,
  stroke_count: outing.stroke_count,
  rate_spm: outing.rate_spm,
  speed_mps: outing.speed_mps,
  speed_over: outing.speed_over,
  split_s_per_500m: outing.speed_mps ? splitOfSpeed(outing.speed_mps) : null,
  distance_per_stroke_m: outing.distance_per_stroke_m,
  heart_rate_mean_bpm: outing.heart_rate_mean_bpm,
});

const folderOf = (file: string): string => file.split(/[/\\]/).slice(0, -1).join('/') || '.';

const groupName = ({ outing, date }: Dated, by: NonNullable<SeasonAsk['groupBy']>): string | null => {
  switch (by) {
    case 'crew':
      return outing.crew;
    case 'craft':
      return outing.craft;
    case 'month':
      return monthName(date);
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
  const isOther = ({ otherSport }: LogSummary) => ask.sport === 'boats' && otherSport !== null;
  const others = summaries.filter(isOther);
  const distinct = distinctOutings(summaries.filter((summary) => !isOther(summary)));
  const { kept, doubles, clockless, warnings } = distinct;
  const list = (some: readonly LogSummary[], keptOut: KeptOut) =>
    some.map((summary) => listed(summary, ask.zone, keptOut));
  const all = [
    ...list(kept, null),
    ...list(doubles, 'same_outing'),
    ...list(clockless, 'no_clock'),
    ...list(others, 'other_sport'),
  ];
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
  const startOf = ({ outing }: LogSummary) => outing.start_time ?? '';
  const ordered = within.sort((a, b) => (startOf(a) < startOf(b) ? -1 : startOf(a) > startOf(b) ? 1 : 0));
  const water = ordered.filter(isDated).filter(({ keptOut }) => keptOut === null);
  const progress = seasonProgress(water);
  const zones = ask.zonesBpm === null ? null : heartRateZones(water, ask.zonesBpm);
  const index =
    zones === null ? null : polarizationIndex(zones.map(({ share_pct }) => (share_pct ?? 0) / 100));
  return {
    schema: 'thole/season/1',
    files: ordered.map(({ outing }) => outing.file),
    warnings: [
      ...ordered.filter(isOfTheSeason).flatMap((summary) => summary.warnings),
      ...warnings,
      ...otherSportWarnings(others),
      ...emptyWarnings(all, within.length),
      ...(zones === null || within.length === 0 ? [] : zoneWarnings(zones, index)),
    ],
    since,
    until,
    totals: totalsOf(water),
    land_totals: totalsOf(ordered.filter(({ keptOut }) => keptOut === 'on_land')),
    weeks: groupsBy(water, ({ date }) => weekName(date)).map(([week, outings]) => ({
      week: week!,
      ...totalsOf(outings),
      rate_bands: bandsOf(outings),
    })),
    months: groupsBy(water, ({ date }) => monthName(date)).map(([month, outings]) => ({
      month: month!,
      ...totalsOf(outings),
    })),
    rate_bands: bandsOf(water),
    last: ask.last === null ? null : lastOf(water.slice(-ask.last)),
    bests: seasonBests(water, SEASON_BESTS),
    longest: longestOf(water),
    heart_rate_zones: zones,
    polarization_index: index,
    progress: [...progress.rows],
    progress_trends: [...progress.trends],
    outings: ordered.map(outingRowOf),
    groups:
      ask.groupBy === null
        ? []
        : groupsBy(water, (summary) => groupName(summary, ask.groupBy!)).map(([group, outings]) => ({
            group,
            ...totalsOf(outings),
            rate_bands: bandsOf(outings),
          })),
    ...(ask.drawn === true ? { drawn: addedUp(water) } : {}),
  };
};

/** Distance up to each outing that has a date, in order. */
const addedUp = (outings: readonly LogSummary[]): DrawnTotal[] => {
  let totalM = 0;
  return outings.flatMap(({ outing: { start_time, distance_m } }) => {
    totalM += distance_m ?? 0;
    return start_time === null ? [] : [{ start_time, total_m: totalM }];
  });
};

const lastOf = (outings: readonly LogSummary[]): NonNullable<SeasonResult['last']> => ({
  outing_count: outings.length,
  rate_bands: bandsOf(outings),
});

const longestOf = (outings: readonly Dated[]): SeasonOutingRow | null => {
  const [longest] = outings
    .filter(({ outing }) => outing.distance_m !== null)
    .sort((a, b) => b.outing.distance_m! - a.outing.distance_m!);
  return longest === undefined ? null : outingRowOf(longest);
};

const emptyWarnings = (all: readonly Listed[], counted: number): SeasonResult['warnings'] => {
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

/** Most logs of other sports that are named. */
const NAMED = 5;

/** Logs of other sports, said once. */
const otherSportWarnings = (others: readonly LogSummary[]): SeasonResult['warnings'] => {
  if (others.length === 0) return [];
  const named = others
    .slice(0, NAMED)
    .map(({ outing, otherSport }) => `${outing.file} (${otherSport})`)
    .join(', ');
  const more = others.length > NAMED ? ` and ${others.length - NAMED} more` : '';
  const [one, them] = others.length === 1 ? ['1 log is', 'it'] : [`${others.length} logs are`, 'them'];
  return [
    {
      code: 'other-sport',
      file: null,
      where: null,
      message: `${one} of no crew in a boat, listed and not counted: ${named}${more}; --sport any counts ${them}.`,
    },
  ];
};
