import { describe, expect, it } from 'vitest';
import { seasonProgress } from '../../src/season/progress.js';
import { PUBLISHED_DAY_PCT } from '../../src/season/progress-settings.js';
import { trendOf } from '../../src/season/trend.js';
import { randomFrom } from '../../src/simulate/random.js';
import { CREW, figureSeason, LAWS, type Law, loggedSeason, OUTINGS } from './progress-seasons.js';
import { summary } from './summaries.js';

const laws = Object.keys(LAWS) as Law[];
const SEASONS = 100;

const claims = (law: Law, pctPerMonth: number, dayPct: number) => {
  const found = { faster: 0, slower: 0, not_shown: 0 };
  let [covered, slopes] = [0, 0];
  for (let seed = 1; seed <= SEASONS; seed++) {
    const { trends } = seasonProgress(figureSeason(seed, { law, pctPerMonth, dayPct, logPct: 0.3 }));
    expect(trends).toHaveLength(1);
    const [trend] = trends;
    found[trend!.verdict!] += 1;
    slopes += trend!.change_pct_per_month! / SEASONS;
    if (trend!.change_low_pct_per_month! <= pctPerMonth && trend!.change_high_pct_per_month! >= pctPerMonth)
      covered += 1;
  }
  return { ...found, covered, slopes };
};

describe.each(laws)('100 seasons of 30 outings of one crew, %s', (law) => {
  // days that differ by 1 % (a crew, Smith & Hopkins 2011) and by 2.5 % (wind and stream too)
  it.each([0.3, 1, 2.5])('without change, days ± %d per cent: a trend is claimed in at most 5', (dayPct) => {
    const { faster, slower, covered, slopes } = claims(law, 0, dayPct);
    expect(faster + slower).toBeLessThanOrEqual(5);
    expect(covered).toBeGreaterThanOrEqual(95);
    expect(Math.abs(slopes)).toBeLessThan(0.1 * dayPct);
  });

  // over four months with days that differ by 2 % and more nobody could tell 1 % a month in 80 of 100
  it.each([0.3, 1, 1.5])(
    'with one per cent a month, days ± %d per cent: told in at least 80, and as large as it is',
    (dayPct) => {
      const { faster, slower, covered, slopes } = claims(law, 1, dayPct);
      expect(faster).toBeGreaterThanOrEqual(80);
      expect(slower).toBe(0);
      expect(covered).toBeGreaterThanOrEqual(95);
      expect(Math.abs(slopes - 1)).toBeLessThan(0.1);
    },
  );

  it('shows a trend as large as the smallest that it says would show, in 70 to 92 of 100', () => {
    const dayPct = 2;
    const smallest =
      Array.from(
        { length: 20 },
        (_, i) =>
          seasonProgress(figureSeason(900 + i, { law, pctPerMonth: 0, dayPct, logPct: 0.3 })).trends[0]!
            .smallest_shown_pct_per_month!,
      ).reduce((sum, value) => sum + value, 0) / 20;
    const { faster } = claims(law, smallest, dayPct);
    expect(faster).toBeGreaterThanOrEqual(70);
    expect(faster).toBeLessThanOrEqual(92);
  });

  it('learns how much one day differs from another', () => {
    for (const dayPct of [0.5, 2]) {
      const learnt = Array.from(
        { length: 20 },
        (_, i) =>
          seasonProgress(figureSeason(700 + i, { law, pctPerMonth: 0.5, dayPct, logPct: 0.3 })).trends[0]!
            .day_sd_pct,
      );
      const mean = learnt.reduce((sum, value) => sum + value, 0) / learnt.length;
      expect(mean / dayPct).toBeGreaterThan(0.8);
      expect(mean / dayPct).toBeLessThan(1.25);
    }
  });

  it('rests on figures that the pipeline gives: true days within 0.5 %, and within three of its sd', () => {
    const random = randomFrom(5, law);
    const faster = Array.from({ length: 8 }, () => 1 + 0.02 * random.normal());
    const progress = seasonProgress(loggedSeason(law, faster));
    expect(progress.trends).toHaveLength(1);
    const { points, day_sd_pct } = progress.trends[0]!;
    expect(points).toHaveLength(8);
    const errors = points.map(
      ({ file, difference_pct }) => difference_pct - 100 * (faster[Number(file)]! - 1),
    );
    const middle = [...errors]
      .sort((a, b) => a - b)
      .slice(3, 5)
      .reduce((sum, value) => sum + value / 2, 0);
    const sds = points.map(({ difference_sd_pct }) => Math.sqrt(difference_sd_pct ** 2 - day_sd_pct ** 2));
    errors.forEach((error, i) => {
      expect(Math.abs(error - middle)).toBeLessThan(0.5);
      expect(Math.abs(error - middle)).toBeLessThan(3 * Math.max(0.1, sds[i]!));
    });
  }, 60_000);
});

describe('progress', () => {
  const steady = (rate_spm: number, speed_mps: number) => ({
    ...{ from_spm: 20, to_spm: 24, rate_spm, speed_mps },
    ...{ speed_sd_mps: 0.01, stroke_count: 200 },
  });
  const outing = (day: number, mps: number, who: { crew: string | null; craft: '1x' | '8+' | null }) =>
    summary(
      {
        ...who,
        file: `${who.crew} ${who.craft} ${day}`,
        start_time: new Date(day * 86_400_000).toISOString(),
      },
      { steady: [steady(22, mps)] },
    );

  it('never mixes crews or crafts: a single now and an eight then are no trend', () => {
    const days = Array.from({ length: 12 }, (_, i) => i * 5);
    const logs = days.map((day, i) =>
      outing(day, i < 6 ? 5.4 : 4, { crew: 'Coot', craft: i < 6 ? '8+' : '1x' }),
    );
    const { trends } = seasonProgress(logs);
    expect(trends.map(({ craft, verdict }) => [craft, verdict])).toEqual([
      ['8+', 'not_shown'],
      ['1x', 'not_shown'],
    ]);
  });

  it('claims nothing where neither crew nor craft is named', () => {
    const logs = Array.from({ length: 20 }, (_, i) =>
      outing(i * 5, 4 + 0.05 * i, { crew: null, craft: null }),
    );
    const [trend] = seasonProgress(logs).trends;
    expect(trend!.change_low_pct_per_month).toBeGreaterThan(1);
    expect(trend!.verdict).toBeNull();
  });

  it('says nothing of a day by a band that no other day was rowed in', () => {
    const days = [1, 1, 1, 1, 1.03, 1, 1, 1];
    const logs = days.map((faster, i) => {
      const shared = { ...steady(22, 4 * faster), speed_sd_mps: 0.05 };
      const alone = { ...steady(18, 3.7 * faster), from_spm: 16, to_spm: 20, speed_sd_mps: 0.001 };
      return summary(
        { ...CREW, file: `${i}`, start_time: new Date(i * 4 * 86_400_000).toISOString() },
        { steady: faster === 1 ? [shared] : [alone, shared] },
      );
    });
    const { rows, trends } = seasonProgress(logs);
    expect(rows).toHaveLength(9);
    expect(trends[0]!.points[4]!.difference_pct).toBeCloseTo(3, 3);
    expect(trends[0]!.levels[0]!.speed_mps).toBeCloseTo(3.7, 3);
  });

  it('compares only days that share a band, at once or by days between', () => {
    const in_ = (from_spm: number, rate_spm: number, mps: number) => ({
      ...steady(rate_spm, mps),
      ...{ from_spm, to_spm: from_spm + 4 },
    });
    const bands = [[20], [20], [20, 24], [24], [24], [36], [36]];
    const logs = bands.map((own, i) =>
      summary(
        { ...CREW, file: `${i}`, start_time: new Date(i * 4 * 86_400_000).toISOString() },
        { steady: own.map((from) => in_(from, from + 2, 4 + 0.02 * from)) },
      ),
    );
    const [trend] = seasonProgress(logs).trends;
    expect(trend!.points.map(({ file }) => file)).toEqual(['0', '1', '2', '3', '4']);
    for (const { difference_pct } of trend!.points) expect(difference_pct).toBeCloseTo(0, 6);
  });

  it('learns how speed goes with rate from days that were rowed at two rates', () => {
    const at = (rate: number) => 4 * (rate / 22) ** 0.25;
    const logs = Array.from({ length: 10 }, (_, i) => {
      const low = i % 2 === 0 ? 17 : 19;
      return summary(
        { ...CREW, file: `${i}`, start_time: new Date(i * 4 * 86_400_000).toISOString() },
        {
          steady: [
            { ...steady(low, at(low)), from_spm: 16, to_spm: 20 },
            { ...steady(28, at(28)), from_spm: 26, to_spm: 30, speed_sd_mps: 1 },
          ],
        },
      );
    });
    const { points } = seasonProgress(logs).trends[0]!;
    const sizes = points.map(({ difference_pct }) => Math.abs(difference_pct));
    // the usual power, 0.45, would make them 1.1 % apart to either side
    expect(Math.max(...sizes)).toBeLessThan(0.2);
  });

  it('takes a higher rate for no progress', () => {
    const logs = Array.from({ length: 20 }, (_, i) => {
      const rate = 20.5 + (3 * i) / 19;
      return summary(
        { ...CREW, file: `${i}`, start_time: new Date(i * 4 * 86_400_000).toISOString() },
        { steady: [steady(rate, 4 * (rate / 22) ** 0.45 * (1 + 0.005 * Math.sin(7 * i)))] },
      );
    });
    const [trend] = seasonProgress(logs).trends;
    expect(trend!.verdict).toBe('not_shown');
  });

  it('of a few days claims nothing, by the published variation of days', () => {
    const logs = Array.from({ length: 4 }, (_, i) =>
      outing(i * 20, 4 * 1.02 ** i, { crew: 'A', craft: '8+' }),
    );
    const [trend] = seasonProgress(logs).trends;
    expect(trend).toMatchObject({
      verdict: 'not_shown',
      day_sd_by: 'published',
      change_pct_per_month: null,
      change_low_pct_per_month: null,
    });
    // 1.0 % within a boat and 3.0 % by venue and conditions: Smith & Hopkins, MSSE 2011, 43:2155-60 (abstract)
    expect(PUBLISHED_DAY_PCT).toBeCloseTo(Math.sqrt(1 + 9), 10);
    expect(trend!.smallest_shown_pct_per_month).toBeGreaterThan(3);
  });

  it('widens its interval where neighbouring days go together', () => {
    const slow = Array.from({ length: OUTINGS }, (_, i) => ({
      day: 4 * i,
      pct: 1.5 * Math.sin(i / 5),
      sdPct: 0.2,
    }));
    const mixed = [...slow].map(({ day, sdPct }, i) => ({ day, sdPct, pct: slow[(i * 7) % OUTINGS]!.pct }));
    const width = (days: typeof slow) => {
      const { lowPctPerMonth, highPctPerMonth } = trendOf(days);
      return highPctPerMonth! - lowPctPerMonth!;
    };
    expect(width(slow)).toBeGreaterThan(1.3 * width(mixed));
  });
});
