import { describe, expect, it } from 'vitest';
import type { AverageResult } from '../../src/contract/average.js';
import type { CurveResult } from '../../src/contract/curve.js';
import type { GaugeResult } from '../../src/contract/gauge.js';
import type { PiecesResult } from '../../src/contract/pieces.js';
import type { RegattaResult } from '../../src/contract/regatta.js';
import type { SeasonResult } from '../../src/contract/season.js';
import type { SeatsResult } from '../../src/contract/seats.js';
import type { WorkoutResult } from '../../src/contract/workout.js';
import { averagePictures } from '../../src/report/pictures/average-stroke.js';
import { curvePictures } from '../../src/report/pictures/curve.js';
import { gaugePictures } from '../../src/report/pictures/gauge.js';
import { piecesPictures } from '../../src/report/pictures/pieces.js';
import { regattaPictures } from '../../src/report/pictures/regatta.js';
import { seasonPictures } from '../../src/report/pictures/season.js';
import { seatsPictures } from '../../src/report/pictures/seats.js';
import { workoutPictures } from '../../src/report/pictures/workout.js';
import type { Reading } from '../../src/report/section.js';
import { type DrawnPanel, dotsOf, linesOf, panelsOf, perPx, strokesOf } from './drawn-values.js';

// Results written by hand with nothing but what a picture looks at: what is drawn, turned back, must be what they say.

const READING: Reading = { speed: 'mps', zone: 'UTC', plain: false, bold: false, width: 80 };

type Value = readonly [x: number, y: number];

/** Holds that places turned back into values are these, each within a tenth of a pixel. */
const expectNear = (panel: DrawnPanel, drawn: readonly Value[], values: readonly Value[]): void => {
  const [perX, perY] = perPx(panel);
  expect(drawn).toHaveLength(values.length);
  for (const [i, [x, y]] of values.entries()) {
    expect(Math.abs(drawn[i]![0] - x)).toBeLessThanOrEqual(0.1 * perX);
    expect(Math.abs(drawn[i]![1] - y)).toBeLessThanOrEqual(0.1 * perY);
  }
};

const panelsOfFirst = (
  pictures: readonly { readonly draw: (width: number) => { readonly markup: string } }[],
  at = 0,
) => panelsOf(pictures[at]!.draw(760).markup);

describe('numbers turned back from pictures', () => {
  it('of the average stroke', () => {
    const cycle = Array.from({ length: 51 }, (_, k) => ({
      phase_pct: 2 * k,
      acceleration_mps2: 4 * Math.sin(k / 8),
      acceleration_sd_mps2: 0.3,
      hull_speed_mps: 5 + Math.cos(k / 8),
      hull_speed_sd_mps: 0.2,
    }));
    const result = {
      bands: [{ from_spm: 24, to_spm: 28, stroke_count: 50, rate_spm: 26, speed_mps: 5, cycle }],
    } as unknown as AverageResult;
    const [surge, speed] = panelsOfFirst(averagePictures(result, READING));
    expectNear(
      surge!,
      linesOf(surge!, 'line c1').flat(),
      cycle.map((at) => [at.phase_pct, at.acceleration_mps2]),
    );
    expectNear(
      speed!,
      linesOf(speed!, 'line c1').flat(),
      cycle.map((at) => [at.phase_pct, at.hull_speed_mps]),
    );
    const band = linesOf(surge!, 'band c1')[0]!;
    expectNear(surge!, [band[0]!], [[0, 0.3]]);
  });

  it('of a curve', () => {
    const points = [
      { rate_spm: 20, speed_mps: 4, speed_sd_mps: 0.1, distance_per_stroke_m: 12, stroke_count: 80 },
      { rate_spm: 30, speed_mps: 5, speed_sd_mps: 0.05, distance_per_stroke_m: 10, stroke_count: 40 },
    ];
    const line = points.map(({ rate_spm, speed_mps }) => ({
      rate_spm,
      speed_mps,
      speed_low_mps: speed_mps - 0.2,
      speed_high_mps: speed_mps + 0.1,
      constant_work_mps: speed_mps + 0.3,
    }));
    const result = {
      curve: { points, plateau_spm: 28, rate_from_spm: 20, rate_to_spm: 30 },
      drawn: { blocks: [{ rate_spm: 25, speed_mps: 4.4 }], line },
    } as unknown as CurveResult;
    const [panel] = panelsOfFirst(curvePictures(result, READING));
    expectNear(
      panel!,
      dotsOf(panel!, 'usual c1'),
      points.map((at) => [at.rate_spm, at.speed_mps]),
    );
    expectNear(panel!, dotsOf(panel!, 'small c5'), [[25, 4.4]]);
    expectNear(
      panel!,
      linesOf(panel!, 'line c1').flat(),
      line.map((at) => [at.rate_spm, at.speed_mps]),
    );
    expectNear(
      panel!,
      linesOf(panel!, 'line c2').flat(),
      line.map((at) => [at.rate_spm, at.constant_work_mps]),
    );
    expectNear(panel!, strokesOf(panel!, 'whisker c1').slice(0, 1).flat(), [
      [20, 3.9],
      [20, 4.1],
    ]);
    expect(strokesOf(panel!, 'mark')[0]![0][0]).toBeCloseTo(28, 1);
  });

  it('of a gauge: rowing and rest are not mixed up', () => {
    const spectra = [0.25, 0.5, 0.75, 1].map((hz) => ({ hz, rest_db: -30 - hz, rowing_db: -5 + hz }));
    const found = [20, 30, 40].map((rate_spm, i) => ({ rate_spm, found_pct: 100 - 10 * i }));
    const result = {
      gauge: { rate_from_spm: 20, rate_to_spm: 30 },
      drawn: { found, least_pct: 97, spectra },
    } as unknown as GaugeResult;
    const pictures = gaugePictures(result);
    const [share] = panelsOfFirst(pictures);
    expectNear(
      share!,
      dotsOf(share!, 'usual c1'),
      found.map((at) => [at.rate_spm, at.found_pct]),
    );
    const [level] = panelsOfFirst(pictures, 1);
    expectNear(
      level!,
      linesOf(level!, 'line c1').flat(),
      spectra.map((at) => [at.hz, at.rowing_db]),
    );
    expectNear(
      level!,
      linesOf(level!, 'line c2').flat(),
      spectra.map((at) => [at.hz, at.rest_db]),
    );
  });

  it('of a regatta: gaps with their ±, a gap in the log as a gap in the line, and places', () => {
    const metres = [0, 5, 10, 100, 105].map((along_m) => ({ along_m, gap_s: along_m / 50 }));
    const gap = {
      event: 'Quads',
      crew: 'Lake',
      against: 'Mere',
      marks: [{ along_m: 100, gap_s: 2, gap_sd_s: 0.4 }],
      metres,
    };
    const marks = (places: readonly number[]) => places.map((place, i) => ({ along_m: 50 * (i + 1), place }));
    const result = {
      results: [
        { event: 'Quads', crew: 'Mere', place: 1, marks: marks([2, 1]) },
        { event: 'Quads', crew: 'Lake', place: 2, marks: marks([1, 2]) },
      ],
      gaps: [],
      drawn_gaps: [gap],
    } as unknown as RegattaResult;
    const pictures = regattaPictures(result);
    const [panel] = panelsOfFirst(pictures);
    const lines = linesOf(panel!, 'line c1');
    expect(lines.map((line) => line.length)).toEqual([3, 2]);
    expectNear(
      panel!,
      lines.flat(),
      metres.map((at) => [at.along_m, at.gap_s]),
    );
    expectNear(panel!, strokesOf(panel!, 'whisker c1').slice(0, 1).flat(), [
      [100, 1.6],
      [100, 2.4],
    ]);
    const [places] = panelsOfFirst(pictures, 1);
    expectNear(places!, dotsOf(places!, 'usual c2'), [
      [50, 1],
      [100, 2],
    ]);
  });

  it('of seat racing', () => {
    const margins = [3, -2].map((margin_s, i) => ({
      piece: String(i + 1),
      boat: 'red',
      other_boat: 'blue',
      margin_s,
      margin_sd_s: 0.5,
    }));
    const swap = { swap: 1, people: ['Ada'], against: ['Eva'], worth_s: 2, worth_sd_s: 0.4, shown: true };
    const pictures = seatsPictures({ margins, swaps: [swap] } as unknown as SeatsResult);
    const [panel] = panelsOfFirst(pictures);
    expectNear(panel!, dotsOf(panel!, 'usual c1'), [
      [1, 3],
      [2, -2],
    ]);
    const [worth] = panelsOfFirst(pictures, 1);
    // A swap shows beyond 2.5 standard deviations, and so far its bar reaches.
    expectNear(worth!, strokesOf(worth!, 'whisker c1').slice(0, 1).flat(), [
      [1, 0.66],
      [3, 0.66],
    ]);
  });

  it('of a season: weeks stacked by band, and speed at like rate', () => {
    const band = { from_spm: null, to_spm: 24, rowing_s: 3600 };
    const higher = { from_spm: 24, to_spm: null, rowing_s: 1800 };
    const points = [0, 10].map((day) => ({
      file: 'x',
      start_time: new Date(Date.UTC(2026, 2, 1 + day)).toISOString(),
      difference_pct: day / 10,
      difference_sd_pct: 0.5,
      trend_pct: day / 20,
    }));
    const result = {
      weeks: [{ week: '2026-W10', rowing_s: 5400, rate_bands: [band, higher] }],
      rate_bands: [band, higher],
      bests: [],
      progress_trends: [
        { crew: 'Mere', craft: '4x', change_pct_per_month: 1, verdict: 'faster', day_sd_pct: 0.4, points },
      ],
    } as unknown as SeasonResult;
    const pictures = seasonPictures(result, READING);
    const [weeks] = panelsOfFirst(pictures);
    const boxes = [
      ...weeks!.markup.matchAll(
        /<rect class="step s\d" x="[^"]+" y="([^"]+)" width="[^"]+" height="([^"]+)"/g,
      ),
    ];
    const [, perY] = perPx(weeks!);
    expect(boxes.map(([, , height]) => Math.round(Number(height) * perY * 100) / 100)).toEqual([1, 0.5]);
    const [progress] = panelsOfFirst(pictures, 1);
    expectNear(
      progress!,
      dotsOf(progress!, 'usual c1'),
      points.map((at) => [Date.parse(at.start_time), at.difference_pct]),
    );
    expectNear(progress!, strokesOf(progress!, 'whisker c1').slice(0, 1).flat(), [
      [Date.parse(points[0]!.start_time), -0.5],
      [Date.parse(points[0]!.start_time), 0.5],
    ]);
  });

  it('of a workout: strokes at the rate and off it', () => {
    const moments = [
      { at_s: 10, speed_mps: 4, rate_spm: 28, at_rate: true },
      { at_s: 12, speed_mps: 4.1, rate_spm: 33, at_rate: false },
      { at_s: 14, speed_mps: 4.2, rate_spm: 20, at_rate: null },
    ];
    const step = {
      step: 1,
      file: 'x',
      start_at_s: 9,
      end_at_s: 13,
      rate_from_spm: 28,
      rate_to_spm: 28,
      duration_s: 4,
      rate_spm: 28,
      asked_split_s_per_500m: null,
    };
    const result = {
      steps: [step],
      sheet: [],
      drawn: [{ file: 'x', start_time: null, moments }],
    } as unknown as WorkoutResult;
    const [rate] = panelsOfFirst(workoutPictures(result, READING));
    expectNear(rate!, dotsOf(rate!, 'small c1'), [[10, 28]]);
    expectNear(rate!, dotsOf(rate!, 'usual c2'), [[12, 33]]);
    expectNear(rate!, dotsOf(rate!, 'small c5'), [[14, 20]]);
  });

  it('of pieces: parts as levels with their ±, and the gap between boats', () => {
    const part = (i: number, speed_mps: number) => ({
      part: i + 1,
      from_along_m: 250 * i,
      to_along_m: 250 * (i + 1),
      duration_s: 50,
      duration_sd_s: 0.5,
      cumulative_s: 50 * (i + 1),
      distance_m: 250,
      distance_sd_m: null,
      speed_mps,
      rate_spm: 30,
    });
    const moments = Array.from({ length: 49 }, (_, i) => ({
      at_s: 2 * i + 1,
      cumulative_s: 2 * i + 1,
      along_m: 10 * i + 5,
      speed_mps: 5 + 0.01 * i,
      rate_spm: 30,
    }));
    const piece = {
      piece: 1,
      file: 'x',
      crew: null,
      start: 'rolling',
      distance_m: 500,
      duration_s: 100,
      duration_sd_s: 1,
      speed_mps: 5,
      parts: [part(0, 5.1), part(1, 5.4)],
    };
    const result = {
      pieces: [piece],
      sheet: [],
      drawn: [{ file: 'x', piece: 1, moments }],
    } as unknown as PiecesResult;
    const [speed] = panelsOfFirst(piecesPictures(result, READING));
    expectNear(speed!, strokesOf(speed!, 'level c1').flat(), [
      [0, 5.1],
      [250, 5.1],
      [250, 5.4],
      [500, 5.4],
    ]);
    expectNear(
      speed!,
      linesOf(speed!, 'line c5 thin plain').flat(),
      moments.map((at) => [at.along_m, at.speed_mps]),
    );
    const [box] = [
      ...speed!.markup.matchAll(/<rect class="band c1" x="[^"]+" y="[^"]+" width="[^"]+" height="([^"]+)"/g),
    ];
    // One standard deviation of the time, 0.5 s of 50 s, is one in a hundred of the speed, to either side.
    expect(Number(box![1]) * perPx(speed!)[1]).toBeCloseTo(2 * 0.051, 2);
  });
});
