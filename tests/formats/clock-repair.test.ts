import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type RawClock, repairClock as repairedOf } from '../../src/formats/clock-repair.js';
import { DATE_RANGE } from '../../src/recording/index.js';

const NOON = Date.UTC(2026, 4, 3, 12) / 1000;
/** The repair with every kept record named, where all are, too. */
const repairClock = (raw: RawClock) => {
  const { kept, ...rest } = repairedOf(raw);
  return { kept: kept ?? Uint32Array.from(raw.timesS.keys()), ...rest };
};
const utc = (offsets: readonly (number | null)[], carries?: readonly number[]) =>
  repairClock({
    file: 'a.gpx',
    timesS: Float64Array.from(offsets, (offset) => offset ?? Number.NaN),
    originUnixS: NOON,
    ...(carries ? { carries: Uint8Array.from(carries) } : {}),
  });
const count = (from: number, to: number): number[] => Array.from({ length: to - from }, (_, i) => from + i);
const codes = (repaired: ReturnType<typeof utc>): string[] => repaired.warnings.map(({ code }) => code);

it('takes a date from 1980 to 2100 for one, and no other', () => {
  const years = [1969, 1975, 1979, 1985, 2026, 2099, 2101, 2600];
  const dates = years.map((year) => Date.UTC(year, 5, 1) / 1000 - NOON);
  for (const [i, at] of dates.entries()) {
    const { kept } = utc([at]);
    expect([years[i], kept.length]).toEqual([years[i], years[i]! >= 1980 && years[i]! < 2100 ? 1 : 0]);
  }
});

it('takes stamps within a tenth of a millisecond for one', () => {
  const close = utc([0, 1, 1.00005, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
  expect(close.kept).not.toContain(2);
  expect(codes(close)).toEqual(['stamps-repeated']);
  expect(codes(utc([0, 0.0002, 0.0004, 0.0006]))).toEqual([]);
});

describe('repairClock', () => {
  it('leaves a sound clock as it is and says nothing', () => {
    const repaired = utc([0, 1, 2.5, 3]);
    expect(repaired).toEqual({
      kept: Uint32Array.of(0, 1, 2, 3),
      atS: Float64Array.of(0, 1, 2.5, 3),
      originUnixS: NOON,
      warnings: [],
    });
  });

  it('gives a sound clock what the repair gives it beside a record without a time', () => {
    const step = fc.oneof(fc.constantFrom(1, 0.1, 0), fc.double({ min: 0, max: 90_000, noNaN: true }));
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 40 }), (steps) => {
        let at = 0;
        const offsets = steps.map((stepS) => {
          at += stepS;
          return at;
        });
        const [alone, beside] = [utc(offsets), utc([...offsets, null])];
        expect([...alone.kept]).toEqual([...beside.kept]);
        expect([...alone.atS]).toEqual([...beside.atS]);
        expect(codes(alone)).toEqual(codes(beside).filter((code) => code !== 'samples-without-time'));
      }),
      { numRuns: 300 },
    );
  });

  it('leaves out records without a time, and says how many', () => {
    const repaired = utc([0, null, 2, null, 4]);
    expect([...repaired.kept]).toEqual([0, 2, 4]);
    expect(repaired.warnings).toEqual([
      {
        code: 'samples-without-time',
        file: 'a.gpx',
        where: 'record 2',
        message: '2 samples have no time and cannot be placed, so they are left out',
      },
    ]);
    expect(utc([null, null]).kept).toHaveLength(0);
  });

  it('keeps the first of two records that share a stamp', () => {
    const repaired = utc([0, 1, 1, 2, 3]);
    expect([...repaired.kept]).toEqual([0, 1, 3, 4]);
    expect(codes(repaired)).toEqual(['stamps-repeated']);
  });

  it('gives a repeated stamp the time that is missing after it', () => {
    const repaired = utc([0, 1, 2, 2, 4, 5]);
    expect([...repaired.atS]).toEqual([0, 1, 2, 3, 4, 5]);
    expect(codes(repaired)).toEqual(['stamps-rounded']);
  });

  it('mends a step back of a second', () => {
    const repaired = utc([0, 1, 2, 3, 2, 3, 4, 5, 6, 7]);
    expect([...repaired.atS]).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
    expect(codes(repaired)).toEqual(['clock-back']);
  });

  it('puts a log whose halves are exchanged in order without loss', () => {
    const repaired = utc([5, 6, 7, 8, 0, 1, 2, 3]);
    expect([...repaired.kept]).toEqual([4, 5, 6, 7, 0, 1, 2, 3]);
    expect(codes(repaired)).toEqual(['clock-back']);
  });

  it('sorts a log that is written backwards', () => {
    const repaired = utc(count(0, 60).reverse());
    expect([...repaired.kept]).toEqual(count(0, 60).reverse());
    expect(codes(repaired)).toEqual(['unsorted']);
  });

  it('leaves the shorter of two stretches that claim one time', () => {
    const repaired = utc([...count(0, 100), ...count(90, 95).map((at) => at + 0.5)]);
    expect([...repaired.kept]).toEqual(count(0, 100));
    expect(repaired.warnings[0]!.message).toContain('5 of 105 samples claim a time');
  });

  it('leaves out stamps that are two years off and back', () => {
    const twoYears = 2 * 365 * 86_400;
    for (const off of [twoYears, -twoYears]) {
      const repaired = utc([0, 1, off + 2, off + 3, 4, 5, 6]);
      expect([...repaired.atS]).toEqual([0, 1, 4, 5, 6]);
      expect(repaired.warnings).toHaveLength(1);
      expect(repaired.warnings[0]!.code).toBe('clock-jump');
      expect(repaired.warnings[0]!.message).toContain('730 days');
    }
    expect([...utc([...count(0, 50), twoYears]).kept]).toEqual(count(0, 50));
    expect([...utc([-twoYears, ...count(0, 50)]).kept]).toEqual(count(1, 51));
  });

  it('keeps what comes after a gap of weeks, and says so', () => {
    const week = 7 * 86_400;
    const repaired = utc([...count(0, 20), ...count(week, week + 20)]);
    expect(repaired.kept).toHaveLength(40);
    expect(repaired.warnings[0]).toMatchObject({ code: 'long-gap', where: 'record 21' });
    expect(repaired.warnings[0]!.message).toContain('7 days');
  });

  it('spreads samples that share whole-second stamps', () => {
    const repaired = utc([0, 0, ...count(1, 20).flatMap((at) => [at, at, at, at, at]), 20, 20, 20]);
    const atS = [...repaired.atS];
    expect(atS.slice(0, 8).map((at) => Number(at.toFixed(9)))).toEqual([0.6, 0.8, 1, 1.2, 1.4, 1.6, 1.8, 2]);
    expect(atS.slice(-3).map((at) => Number(at.toFixed(9)))).toEqual([20, 20.2, 20.4]);
    expect(codes(repaired)).toEqual(['stamps-shared']);
  });

  it('puts the samples of a batch before the time at which it was handed over', () => {
    // ten samples of 100 Hz, stamped with the last one's time, handed over a little early or late
    const handed = [0.094, 0.187, 0.293, 0.391, 0.488, 0.594];
    const repaired = utc(handed.flatMap((at) => new Array(10).fill(at)));
    expect(repaired.kept).toHaveLength(60);
    const first = repaired.atS[0]!;
    for (const [i, at] of repaired.atS.entries()) expect(Math.abs(at - first - i / 100)).toBeLessThan(0.012);
    expect(repaired.atS[59]! - repaired.atS[9]!).toBeCloseTo(0.594 - 0.094, 9);
    expect(repaired.warnings[0]).toMatchObject({ code: 'stamps-shared' });
    expect(repaired.warnings[0]!.message).toContain('the last of them');
  });

  it('does not spread samples into a gap', () => {
    const repaired = utc([0, 0, 1, 1, 2, 2, 60, 60, 61, 61]);
    expect([...repaired.atS]).toEqual([0, 0.5, 1, 1.5, 2, 2.5, 60, 60.5, 61, 61.5]);
  });

  it('merges a position and a heart rate in alternate records of one second', () => {
    const repaired = utc([0, 0, 1, 1, 2, 2], [1, 2, 1, 2, 1, 2]);
    expect([...repaired.kept]).toEqual([0, 1, 2, 3, 4, 5]);
    expect([...repaired.atS]).toEqual([0, 0, 1, 1, 2, 2]);
    expect(repaired.warnings).toEqual([]);
  });

  it('keeps two lists that carry different channels over the same time', () => {
    const repaired = utc([0, 1, 2, 0.5, 1.5, 2.5], [1, 1, 1, 2, 2, 2]);
    expect([...repaired.atS]).toEqual([0, 0.5, 1, 1.5, 2, 2.5]);
  });

  it.each([
    ['1980', Date.UTC(1980, 0, 6) / 1000],
    ['1989', Date.UTC(1989, 11, 31) / 1000],
    ['1970', 12],
  ])('treats a clock that starts in %s as relative', (year, start) => {
    const repaired = repairClock({
      file: 'a.fit',
      timesS: Float64Array.of(0, 1, 2),
      originUnixS: start,
    });
    expect(repaired.originUnixS).toBeNull();
    expect([...repaired.atS]).toEqual([0, 1, 2]);
    expect(repaired.warnings[0]!.message).toContain(`starts in ${year}`);
  });

  it('believes a clock that stands in March 1994', () => {
    const start = Date.UTC(1994, 2, 23, 12, 35, 19) / 1000;
    const repaired = repairClock({ file: 'a', timesS: Float64Array.of(0, 1), originUnixS: start });
    expect(repaired.originUnixS).toBe(start);
  });

  it('leaves out what was written before the clock was set', () => {
    const start = Date.UTC(1980, 0, 6) / 1000 - NOON;
    const repaired = utc([start, start + 1, ...count(0, 10)]);
    expect([...repaired.kept]).toEqual(count(2, 12));
    expect(repaired.originUnixS).toBe(NOON);
    expect(codes(repaired)).toEqual(['clock-unset']);
  });

  it('drops milliseconds that repeat the seconds', () => {
    const repaired = utc(count(0, 90).map((at) => at + (at % 60) / 1000));
    expect([...repaired.atS]).toEqual(count(0, 90));
    expect(codes(repaired)).toEqual(['fraction-repeats-second']);
  });

  it('gives increasing times to any stamps, of records that were there, in bounded time', () => {
    const stamp = fc.oneof(
      fc.integer({ min: -5, max: 30 }),
      fc.double({ min: -1e10, max: 1e10, noNaN: true }),
      fc.constant(null),
    );
    fc.assert(
      fc.property(fc.array(fc.tuple(stamp, fc.integer({ min: 1, max: 3 })), { maxLength: 80 }), (rows) => {
        const repaired = utc(
          rows.map(([time]) => time),
          rows.map(([, carried]) => carried),
        );
        expect(new Set(repaired.kept).size).toBe(repaired.kept.length);
        const lastOf = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
        repaired.kept.forEach((record, i) => {
          expect(rows[record]![0]).not.toBeNull();
          for (const bit of [0, 1]) {
            if (((rows[record]![1] >> bit) & 1) === 0) continue;
            expect(repaired.atS[i]!).toBeGreaterThan(lastOf[bit]!);
            lastOf[bit] = repaired.atS[i]!;
          }
        });
        const isDate = (time: number | null) => {
          const unixS = NOON + (time ?? Number.NaN);
          return unixS >= DATE_RANGE.low && unixS <= DATE_RANGE.high;
        };
        if (rows.some(([time]) => isDate(time))) expect(repaired.kept.length).toBeGreaterThan(0);
      }),
      { numRuns: 300, seed: 1 },
    );
  });
});
