import { describe, expect, it } from 'vitest';
import type { AverageResult } from '../../src/contract/average.js';
import { averageResult } from '../../src/contract/average.js';
import { averageResultOf, comparedAverage, openOuting } from '../../src/outing/index.js';
import { comparedAverageView } from '../../src/report/compared-average.js';
import { tableText } from '../../src/report/table-text.js';
import { simulate } from '../../src/simulate/index.js';
import { speedAtRate } from '../simulator/craft-shape.js';
import { simulateTwin } from '../simulator/twin.js';

const CRAFT = '4x';
const READING = { speed: null, zone: 'UTC', plain: false, bold: false, width: 80 };

/** Steady rowing of each simulator on a day of its own. */
const days = [
  (seed: number) =>
    simulate({
      craft: CRAFT,
      seed,
      script: [
        { do: 'rest', time_s: 20 },
        { do: 'row', rate_spm: 26, time_s: 150 },
        { do: 'rest', time_s: 20 },
      ],
      sensors: { gnss: { hz: 5, speed: true }, imu: { hz: 50, clock: 'utc' } },
    }),
  (seed: number) =>
    simulateTwin({
      craft: CRAFT,
      seed,
      imu: {},
      script: [{ restS: 20 }, { rowS: 150, rateSpm: 26, speedMps: speedAtRate(CRAFT, 26) }, { restS: 20 }],
    }),
];

const averageOf = (day: (seed: number) => ReturnType<(typeof days)[number]>, seed: number): AverageResult => {
  const { track, imu } = day(seed);
  return averageResultOf(openOuting([track!, imu!], { craft: CRAFT, placement: 'hull' }));
};

/** The same log with so much more surge from one phase to another. */
const surged = (result: AverageResult, fromPct: number, toPct: number, by: number): AverageResult => ({
  ...result,
  files: ['other.csv'],
  bands: result.bands.map((band) => ({
    ...band,
    cycle: band.cycle.map((point) =>
      point.phase_pct >= fromPct && point.phase_pct <= toPct
        ? { ...point, acceleration_mps2: point.acceleration_mps2 + by }
        : point,
    ),
  })),
});

describe.each([
  ['this simulator', days[0]!],
  ['the other simulator', days[1]!],
])('the average strokes of two days over each other, %s', (_, day) => {
  const now = averageOf(day, 11);
  const most = (result: AverageResult) =>
    Math.max(...result.bands.flatMap(({ cycle }) => cycle.map((point) => point.acceleration_sd_mps2 ?? 0)));

  it('differ nowhere where one crew rowed alike on both', () => {
    const { compared } = comparedAverage(now, averageOf(day, 12));
    expect(compared!.length).toBeGreaterThan(0);
    for (const { stretches, cycle } of compared!) {
      expect(cycle).toHaveLength(51);
      expect(stretches).toEqual([]);
    }
  });

  it('differ where one surges less than the other by more than their spread, and it is told and drawn', () => {
    const by = 2 * Math.SQRT2 * most(now);
    const result = comparedAverage(now, surged(now, 20, 40, by));
    expect(averageResult.safeParse(result).error).toBeUndefined();
    // strokes of a start may make a band of their own
    const [band] = [...result.compared!].sort((a, b) => b.stroke_count - a.stroke_count);
    expect(band!.stretches).toHaveLength(1);
    expect(band!.stretches[0]).toMatchObject({ from_phase_pct: 20, to_phase_pct: 40 });
    expect(band!.stretches[0]!.difference_mps2).toBeCloseTo(-by, 6);
    const text = tableText(comparedAverageView.sections(result, READING), READING);
    expect(text.replaceAll('\n', ' ')).toMatch(/From 20 to 40 % of the cycle the surge is [\d.]+ m\/s² less/);
    expect(text).toContain('○');
    for (const line of text.split('\n')) expect([...line].length).toBeLessThanOrEqual(80);
  });

  it('do not differ by less than their spread, or at a single point', () => {
    expect(comparedAverage(now, surged(now, 20, 40, 0.01)).compared![0]!.stretches).toEqual([]);
    expect(comparedAverage(now, surged(now, 30, 30, 20)).compared![0]!.stretches).toEqual([]);
  });

  it('are told of only at like rates', () => {
    const by = 2 * Math.SQRT2 * most(now);
    const other = surged(now, 20, 40, by);
    const slower = { ...other, bands: other.bands.map((band) => ({ ...band, rate_spm: band.rate_spm - 2 })) };
    for (const { rates_alike, stretches } of comparedAverage(now, slower).compared!) {
      expect(rates_alike).toBe(false);
      expect(stretches).toEqual([]);
    }
  });

  it('are not laid over each other in bands that only one has, and it is said', () => {
    const other = { ...now, bands: now.bands.map((band) => ({ ...band, from_spm: 90, to_spm: 99 })) };
    const result = comparedAverage(now, other);
    expect(result.compared).toEqual([]);
    expect(result.warnings.map(({ code }) => code)).toContain('no-band-shared');
  });
});
