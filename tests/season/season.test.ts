import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seasonResult } from '../../src/contract/season.js';
import { type SeasonAsk, seasonOf } from '../../src/season/index.js';
import { anySummary, summary, way } from './summaries.js';

const ASK: SeasonAsk = {
  zone: 'Europe/Zurich',
  since: null,
  until: null,
  seasonFrom: null,
  sport: 'boats',
  groupBy: null,
  last: null,
  zonesBpm: null,
};
const FIGURES = ['outing_count', 'distance_m', 'rowing_s', 'stroke_count'] as const;

describe('a season', () => {
  it('adds up: bands to strokes; weeks, months and groups to the totals', () => {
    fc.assert(
      fc.property(fc.array(anySummary, { maxLength: 30 }), (summaries) => {
        const season = seasonOf(summaries, { ...ASK, groupBy: 'crew' });
        const dated = summaries.filter(({ outing }) => outing.start_time !== null);
        const water = dated.filter(({ outing }) => outing.place === 'water');
        expect(season.totals.outing_count).toBe(water.length);
        for (const figure of FIGURES)
          for (const rows of [season.weeks, season.months, season.groups])
            expect(rows.reduce((sum, row) => sum + row[figure], 0)).toBeCloseTo(season.totals[figure], 6);
        for (const { stroke_count, rate_bands } of [
          { ...season.totals, rate_bands: season.rate_bands },
          ...season.weeks,
          ...season.groups,
        ])
          expect(rate_bands.reduce((sum, row) => sum + row.stroke_count, 0)).toBe(stroke_count);
        expect(season.land_totals.outing_count + season.totals.outing_count).toBe(dated.length);
        expect(season.outings).toHaveLength(summaries.length);
        expect(seasonResult.safeParse(season).error).toBeUndefined();
      }),
    );
  });

  it('says nothing of the doubts of a log that another one stands for', () => {
    const minutes = way(Date.parse('2026-03-14T07:00:00Z') / 1000, 60);
    const doubt = { code: 'no-strokes', file: 'phone.csv', where: null, message: 'no strokes' } as const;
    const phone = { ...summary({ file: 'phone.csv' }, { strokeSource: null, minutes }), warnings: [doubt] };
    const hull = summary({ file: 'hull.gpx' }, { strokeSource: 'imu', minutes });
    expect(seasonOf([phone], ASK).warnings).toContainEqual(doubt);
    const season = seasonOf([phone, hull], ASK);
    expect(season.totals.outing_count).toBe(1);
    expect(season.warnings.map(({ code }) => code)).toEqual(['same-outing']);
  });

  it('does not depend on the order of the logs', () => {
    fc.assert(
      fc.property(fc.array(anySummary, { maxLength: 12 }), (summaries) => {
        const [there, back] = [summaries, [...summaries].reverse()].map((list) => seasonOf(list, ASK));
        for (const figure of FIGURES) expect(there!.totals[figure]).toBeCloseTo(back!.totals[figure], 6);
        expect(there!.weeks.map(({ week }) => week)).toEqual(back!.weeks.map(({ week }) => week));
      }),
    );
  });

  it('counts the days asked for, both ends included, in the zone of the club', () => {
    const at = (start_time: string) => summary({ start_time, file: start_time });
    const logs = ['2026-02-28T23:30:00Z', '2026-03-31T21:30:00Z', '2026-03-31T22:30:00Z'].map(at);
    const season = seasonOf(logs, { ...ASK, since: '2026-03-01', until: '2026-03-31' });
    expect(season.files).toEqual(['2026-02-28T23:30:00Z', '2026-03-31T21:30:00Z']);
  });

  it('begins on the day told, in the year of the last outing or before', () => {
    const at = (start_time: string) => summary({ start_time });
    const logs = ['2025-08-31T10:00:00Z', '2025-09-01T10:00:00Z', '2026-05-01T10:00:00Z'].map(at);
    const season = seasonOf(logs, { ...ASK, seasonFrom: '09-01' });
    expect([season.since, season.totals.outing_count]).toEqual(['2025-09-01', 2]);
  });

  it('leaves out a log without a clock where days are asked for, and says so', () => {
    const season = seasonOf([summary({ start_time: null })], { ...ASK, since: '2026-01-01' });
    expect(season.totals.outing_count).toBe(0);
    expect(season.warnings.map(({ code }) => code)).toEqual(['no-clock']);
  });

  it('says which days there are where none is counted', () => {
    const logs = [
      summary({ start_time: '2026-03-14T07:00:00Z' }),
      summary({ start_time: '2026-04-02T07:00:00Z' }),
    ];
    const { warnings } = seasonOf(logs, { ...ASK, since: '2027-01-01' });
    expect(warnings).toMatchObject([
      { code: 'no-outing', message: expect.stringContaining('2026-03-14 to 2026-04-02') },
    ]);
  });

  it('tells of steadiness only where half of the strokes of a band do', () => {
    const band = (stroke_count: number, speed_variation: number | null) => ({
      ...{ from_spm: 20, to_spm: 24, rowing_s: 1, distance_m: 1, share_pct: null },
      ...{ stroke_count, speed_variation, extra_drag_power_pct: speed_variation },
    });
    const variation = (...bands: ReturnType<typeof band>[]) =>
      seasonOf(
        bands.map((row) => summary({ rate_bands: [row] })),
        ASK,
      ).rate_bands[0]!.speed_variation;
    expect(variation(band(100, 0.1), band(300, 0.2))).toBeCloseTo(0.175, 10);
    expect(variation(band(100, 0.1), band(99, null))).toBe(0.1);
    expect(variation(band(1, 0.4), band(991, null))).toBeNull();
  });

  it.each([
    [[[120, 60]], null],
    [
      [
        [120, 0.5],
        [180, 0.5],
      ],
      null,
    ],
    [
      [
        [120, 60],
        [150, 5],
        [180, 70],
      ],
      'no-polarization-index',
    ],
    [
      [
        [120, 60],
        [150, 5],
        [180, 10],
      ],
      null,
    ],
    [
      [
        [120, 60],
        [150, 5],
      ],
      null,
    ],
    [[], 'no-heart-rate'],
  ] as const)('says why zones of %j have no index', (rates, code) => {
    const heartRates = rates.map(([bpm, seconds]) => ({ bpm, seconds }));
    const season = seasonOf([summary({}, { heartRates })], { ...ASK, zonesBpm: [140, 165] });
    expect(season.warnings.map((warning) => warning.code)).toEqual(code === null ? [] : [code]);
    expect(season.polarization_index === null).toBe(code !== null);
  });

  it('takes the best stretch of all, and whole pieces of about the length apart', () => {
    const best = (duration_s: number) => ({
      asked_m: 2000,
      duration_s,
      duration_sd_s: 1,
      distance_m: 2000,
      distance_sd_m: null,
      start_time: null,
      rate_spm: 30,
    });
    const piece = (duration_s: number, distance_m: number) => ({
      piece: 1,
      duration_s,
      duration_sd_s: 1,
      distance_m,
      distance_sd_m: null,
      rate_spm: 33,
      start_time: null,
    });
    const season = seasonOf(
      [
        summary({ file: 'slow', best: [best(430)] }, { pieces: [piece(425, 2010)] }),
        summary({ file: 'fast', best: [best(420)] }, { pieces: [piece(300, 1500), piece(431, 1990)] }),
      ],
      ASK,
    );
    expect(
      season.bests.map(({ kind, asked_m, duration_s, file }) => [kind, asked_m, duration_s, file]),
    ).toEqual([
      ['stretch', 2000, 420, 'fast'],
      ['piece', 1500, 300, 'fast'],
      ['piece', 2000, 425, 'slow'],
    ]);
  });
});
