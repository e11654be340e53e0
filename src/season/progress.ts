import type { ProgressRow, ProgressTrendRow } from '../contract/season.js';
import { median } from '../signal/index.js';
import { theilSen } from '../signal/theil-sen.js';
import { grouped } from '../units/grouped.js';
import type { LogSummary } from './log-summary.js';
import { PROGRESS_SETTINGS } from './progress-settings.js';
import type { SteadyRowing } from './steady-rowing.js';
import { type DayFigure, type Trend, trendOf } from './trend.js';

/** What a season shows of progress. */
export interface Progress {
  /** Each outing and rate band. */
  readonly rows: readonly ProgressRow[];
  /** Each crew in each craft. */
  readonly trends: readonly ProgressTrendRow[];
}

/** Steady rowing of one outing in one band. */
interface Cell {
  readonly summary: LogSummary;
  readonly day: number;
  readonly steady: SteadyRowing;
}

const DAY_MS = 86_400_000;
/** Standard deviations of a normal law in its median absolute deviation; sd of its median in sd of its mean. */
const MAD_TO_SD = 1.4826;
const MEDIAN_TO_MEAN_SD = Math.sqrt(Math.PI / 2);

const bandKey = ({ steady }: Cell): string => `${steady.from_spm} ${steady.to_spm}`;

const cellsOf = (summaries: readonly LogSummary[]): Cell[] =>
  summaries.flatMap((summary) => {
    const { start_time } = summary.outing;
    if (start_time === null) return [];
    const day = Math.floor(Date.parse(start_time) / DAY_MS);
    return summary.steady.map((steady) => ({ summary, day, steady }));
  });

/**
 * How speed goes with rate within outings that were rowed at two rates or more: from the lowest to the highest of each,
 * on one day and one water. Empty where too few show it.
 */
const exponentWithinDays = (cells: readonly Cell[]): { readonly value: number; readonly sd: number }[] => {
  const set = PROGRESS_SETTINGS;
  const slopes = [...grouped(cells, ({ summary }) => summary.outing.file).values()].flatMap((own) => {
    const steady = own.map((cell) => cell.steady).sort((a, b) => a.rate_spm - b.rate_spm);
    const [low, high] = [steady[0]!, steady.at(-1)!];
    const apart = Math.log(high.rate_spm / low.rate_spm);
    return apart < set.exponentApart ? [] : [Math.log(high.speed_mps / low.speed_mps) / apart];
  });
  if (slopes.length < set.exponentDays) return [];
  const value = median(slopes);
  const spread = MAD_TO_SD * median(slopes.map((slope) => Math.abs(slope - value)));
  return [{ value, sd: Math.max(set.exponentBend, (MEDIAN_TO_MEAN_SD * spread) / Math.sqrt(slopes.length)) }];
};

/** How speed goes with rate within the bands of a crew: what its outings show, drawn to what is usual. */
const exponentOf = (bands: readonly (readonly Cell[])[]): { readonly value: number; readonly sd: number } => {
  const set = PROGRESS_SETTINGS;
  const found = bands.flatMap((cells) => {
    const x = cells.map(({ steady }) => Math.log(steady.rate_spm));
    const middle = median(x);
    const spread = Math.sqrt(x.reduce((sum, value) => sum + (value - middle) ** 2, 0) / x.length);
    if (cells.length < set.exponentOutings || spread < set.exponentSpread) return [];
    // A trend of the season is taken out first, so that rates that rise with the weeks are not blamed for it.
    const y = cells.map(({ steady }) => Math.log(steady.speed_mps));
    const days = cells.map(({ day }) => day);
    const slope = theilSen(days, y)?.slope ?? 0;
    const rateSlope = theilSen(days, x)?.slope ?? 0;
    const line = theilSen(
      x.map((value, i) => value - rateSlope * days[i]!),
      y.map((value, i) => value - slope * days[i]!),
    );
    if (line === null) return [];
    return [{ value: line.slope, sd: Math.max(0.01, (line.slopeHigh - line.slopeLow) / (2 * 1.96)) }];
  });
  const all = [{ value: set.exponent, sd: set.exponentSd }, ...found, ...exponentWithinDays(bands.flat())];
  const weight = all.reduce((sum, { sd }) => sum + sd ** -2, 0);
  return {
    value: all.reduce((sum, { value, sd }) => sum + value * sd ** -2, 0) / weight,
    sd: weight ** -0.5,
  };
};

/** A cell's speed at the band's usual rate, as the logarithm, with its sd by the logs. */
interface Figure {
  readonly cell: Cell;
  readonly band: number;
  readonly usualSpm: number;
  readonly value: number;
  readonly sd: number;
}

/** Levels of bands and differences of outings are taken from one another until they hold still to this, or so often. */
const HELD = 1e-7;
const MOST_ROUNDS = 500;

const fileOf = ({ cell }: Figure): string => cell.summary.outing.file;

/**
 * The figures that tell outings from one another: those of the largest set of outings in which each shares a band with
 * another, in the bands that they share. A band of one outing only has its level from that outing and says nothing of it.
 */
const comparable = (figures: readonly Figure[]): readonly Figure[] => {
  const shared = [...grouped(figures, ({ band }) => band).values()].filter((own) => own.length > 1);
  const sets: Figure[][] = [];
  for (const own of shared) {
    const files = new Set(own.map(fileOf));
    const touching = sets.filter((set) => set.some((figure) => files.has(fileOf(figure))));
    for (const set of touching) sets.splice(sets.indexOf(set), 1);
    sets.push([...touching.flat(), ...own]);
  }
  const size = (set: readonly Figure[]): number => new Set(set.map(fileOf)).size;
  return sets.reduce((best, set) => (size(set) > size(best) ? set : best), sets[0] ?? figures.slice(0, 1));
};

/**
 * What each outing differs from the usual over all its bands, as a share: bands and outings taken from one another
 * in turn (Tukey 1977, median polish, with weighted means over an outing's bands). A band that cannot be compared has
 * the level that its outings give it.
 */
const differences = (all: readonly Figure[]) => {
  const figures = comparable(all);
  const outings = [...grouped(figures, fileOf).values()];
  const levels = new Map<number, number>();
  let values = new Map<string, number>();
  const levelOf = (own: readonly Figure[]): number =>
    median(own.map((figure) => figure.value - (values.get(fileOf(figure)) ?? 0)));
  const bands = [...grouped(figures, ({ band }) => band).values()];
  for (let round = 0, moved = Number.POSITIVE_INFINITY; moved > HELD && round < MOST_ROUNDS; round++) {
    for (const own of bands) levels.set(own[0]!.band, levelOf(own));
    const before = values;
    values = new Map(
      outings.map((own) => {
        const weight = own.reduce((sum, { sd }) => sum + sd ** -2, 0);
        const sum = own.reduce(
          (total, { value, band, sd }) => total + (value - levels.get(band)!) * sd ** -2,
          0,
        );
        return [fileOf(own[0]!), sum / weight];
      }),
    );
    moved = Math.max(...[...values].map(([file, value]) => Math.abs(value - (before.get(file) ?? 0))));
  }
  for (const own of grouped(all, ({ band }) => band).values())
    if (!levels.has(own[0]!.band)) levels.set(own[0]!.band, levelOf(own));
  return {
    levels,
    outings: outings
      .map((own) => ({
        cell: own[0]!.cell,
        value: values.get(fileOf(own[0]!))!,
        sd: own.reduce((sum, { sd }) => sum + sd ** -2, 0) ** -0.5,
      }))
      .sort((a, b) => (a.cell.summary.outing.start_time! < b.cell.summary.outing.start_time! ? -1 : 1)),
  };
};

const pct = (share: number): number => 100 * (Math.exp(share) - 1);

/** One figure a day: outings of one day share its weather. */
const daysOf = (outings: ReturnType<typeof differences>['outings']): DayFigure[] =>
  [...grouped(outings, ({ cell }) => cell.day).values()].map((own) => ({
    day: own[0]!.cell.day,
    pct: own.reduce((sum, { value }) => sum + pct(value), 0) / own.length,
    sdPct: (100 * Math.hypot(...own.map(({ sd }) => sd))) / own.length,
  }));

const rowOf = (figure: Figure, trend: Trend, group: LogSummary['outing']): ProgressRow => {
  const { cell, usualSpm, value, sd } = figure;
  const speed = Math.exp(value);
  return {
    crew: group.crew,
    craft: group.craft,
    file: cell.summary.outing.file,
    start_time: cell.summary.outing.start_time,
    from_spm: cell.steady.from_spm,
    to_spm: cell.steady.to_spm,
    stroke_count: cell.steady.stroke_count,
    rate_spm: cell.steady.rate_spm,
    speed_mps: cell.steady.speed_mps,
    speed_over: group.speed_over,
    distance_per_stroke_m: (60 * cell.steady.speed_mps) / cell.steady.rate_spm,
    usual_rate_spm: usualSpm,
    like_speed_mps: speed,
    like_speed_sd_mps: speed * Math.hypot(sd, trend.dayPct / 100),
    like_distance_per_stroke_m: (60 * speed) / usualSpm,
  };
};

const progressOf = (cells: readonly Cell[]): { rows: ProgressRow[]; trend: ProgressTrendRow } => {
  const group = cells[0]!.summary.outing;
  const bands = [...grouped(cells, bandKey).values()].sort(
    (a, b) => a[0]!.steady.rate_spm - b[0]!.steady.rate_spm,
  );
  const exponent = exponentOf(bands);
  const figures = bands.flatMap((own, band): Figure[] => {
    const usualSpm = median(own.map(({ steady }) => steady.rate_spm));
    return own.map((cell) => {
      const { rate_spm, speed_mps, speed_sd_mps } = cell.steady;
      const off = Math.log(usualSpm / rate_spm);
      return {
        cell,
        band,
        usualSpm,
        value: Math.log(speed_mps) + exponent.value * off,
        sd: Math.hypot(speed_sd_mps / speed_mps, exponent.sd * off),
      };
    });
  });
  const found = differences(figures);
  const days = daysOf(found.outings);
  const trend = trendOf(days);
  const isOneCrew = group.crew !== null || group.craft !== null;
  return {
    rows: figures
      .map((figure) => rowOf(figure, trend, group))
      .sort((a, b) => (a.start_time! < b.start_time! ? -1 : a.start_time! > b.start_time! ? 1 : 0)),
    trend: {
      crew: group.crew,
      craft: group.craft,
      speed_over: group.speed_over,
      outing_count: found.outings.length,
      day_count: days.length,
      start_time: found.outings[0]!.cell.summary.outing.start_time,
      end_time: found.outings.at(-1)!.cell.summary.outing.start_time,
      change_pct_per_month: trend.pctPerMonth,
      change_low_pct_per_month: trend.lowPctPerMonth,
      change_high_pct_per_month: trend.highPctPerMonth,
      verdict: isOneCrew ? trend.verdict : null,
      smallest_shown_pct_per_month: trend.smallestShownPctPerMonth,
      day_sd_pct: trend.dayPct,
      day_sd_by: trend.dayBy,
      levels: bands.map((own, band) => ({
        from_spm: own[0]!.steady.from_spm,
        to_spm: own[0]!.steady.to_spm,
        outing_count: own.length,
        usual_rate_spm: median(own.map(({ steady }) => steady.rate_spm)),
        speed_mps: Math.exp(found.levels.get(band)!),
        distance_per_stroke_m:
          (60 * Math.exp(found.levels.get(band)!)) / median(own.map(({ steady }) => steady.rate_spm)),
      })),
      points: found.outings.map(({ cell, value, sd }) => ({
        file: cell.summary.outing.file,
        start_time: cell.summary.outing.start_time,
        difference_pct: pct(value),
        difference_sd_pct: Math.hypot(100 * sd, trend.dayPct),
        trend_pct: trend.at(cell.day),
      })),
    },
  };
};

/**
 * Speed at like rate over a season: each outing's steady rowing by rate band, and one trend for each crew in each
 * craft. Crews and crafts are never mixed, nor is speed over ground with speed through the water.
 * @param summaries outings that count, on the water
 */
export const seasonProgress = (summaries: readonly LogSummary[]): Progress => {
  const crews = grouped(cellsOf(summaries), ({ summary: { outing } }) =>
    JSON.stringify([outing.crew, outing.craft, outing.speed_over]),
  );
  const groups = [...crews.values()].map(progressOf);
  return { rows: groups.flatMap(({ rows }) => rows), trends: groups.map(({ trend }) => trend) };
};
