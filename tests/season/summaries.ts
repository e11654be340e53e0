import fc from 'fast-check';
import type { OutingRow } from '../../src/contract/outing.js';
import type { LogSummary, MinutePlace } from '../../src/season/index.js';

/** A way on invented water: north at some speed from a place, one position a minute. */
export const way = (fromUnixS: number, minutes: number, eastM = 0, metresPerMinute = 200): MinutePlace[] =>
  Array.from({ length: minutes }, (_, i) => ({
    minute: Math.ceil(fromUnixS / 60) + i,
    latDeg: 46 + (i * metresPerMinute) / 111_200,
    lonDeg: 8 + eastM / 77_400,
  }));

/** A summary with what a test says of it; the rest is an outing of an hour. */
export const summary = (
  row: Partial<OutingRow>,
  more: Partial<Omit<LogSummary, 'outing'>> = {},
): LogSummary => ({
  outing: {
    file: 'a.gpx',
    crew: null,
    craft: null,
    place: 'water',
    start_time: '2026-03-14T07:00:00.000Z',
    end_time: null,
    duration_s: 3600,
    rowing_s: 3000,
    distance_m: 10_000,
    over_ground_m: 10_500,
    drift_m: 500,
    furthest_m: 4000,
    stroke_count: 1000,
    rate_spm: 20,
    speed_mps: 3.33,
    speed_over: 'ground',
    distance_per_stroke_m: 10,
    heart_rate_mean_bpm: null,
    rate_bands: [],
    best: [],
    piece_count: 0,
    ...row,
  },
  files: [row.file ?? 'a.gpx'],
  strokeSource: 'cadence',
  positionRateHz: 1,
  pieces: [],
  heartRates: [],
  minutes: [],
  sport: null,
  otherSport: null,
  givenCrew: row.crew ?? null,
  givenCraft: row.craft ?? null,
  rates: [],
  steady: [],
  warnings: [],
  ...more,
});

const EDGES = [null, 20, 24, 28, 32, null] as const;

/** Any outing of two years, with strokes spread over the usual bands. */
export const anySummary = fc
  .record({
    day: fc.integer({ min: 0, max: 730 }),
    counts: fc.array(fc.integer({ min: 0, max: 900 }), { minLength: 5, maxLength: 5 }),
    distance: fc.option(fc.double({ min: 0, max: 30_000, noNaN: true })),
    crew: fc.constantFrom('Heron', 'Coot', null),
    dated: fc.boolean(),
    place: fc.constantFrom('water' as const, 'water' as const, 'land' as const),
  })
  .map(({ day, counts, distance, crew, dated, place }) =>
    summary({
      crew,
      place,
      start_time: dated ? new Date(Date.UTC(2025, 0, 1) + day * 86_400_000 + 7e7).toISOString() : null,
      distance_m: distance,
      rowing_s: counts.reduce((sum, count) => sum + count * 2.5, 0),
      stroke_count: counts.reduce((sum, count) => sum + count, 0),
      rate_bands: counts.map((count, i) => ({
        from_spm: EDGES[i]!,
        to_spm: EDGES[i + 1]!,
        stroke_count: count,
        rowing_s: count * 2.5,
        distance_m: distance,
        share_pct: null,
        speed_variation: 0.1,
        extra_drag_power_pct: null,
      })),
    }),
  );
