import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Point, thinned } from '../../src/report/drawing/thinned.js';

const line = fc
  .array(
    fc.record({
      dx: fc.double({ min: 0.001, max: 0.5, noNaN: true }),
      y: fc.double({ min: -50, max: 50, noNaN: true }),
    }),
    {
      minLength: 1,
      maxLength: 400,
    },
  )
  .map((steps) => {
    let x = 0;
    return steps.map(({ dx, y }): Point => {
      x += dx;
      return [x, y];
    });
  });

const column = ([x]: Point): number => Math.floor(x);

describe('a thinned line', () => {
  it('keeps the first, the last, the lowest and the highest point of every column of pixels, and nothing new', () => {
    fc.assert(
      fc.property(line, (points) => {
        const kept = thinned(points) as Point[];
        for (const point of kept) expect(points).toContain(point);
        for (const index of new Set(points.map(column))) {
          const all = points.filter((point) => column(point) === index);
          const left = kept.filter((point) => column(point) === index);
          const ups = (of: readonly Point[]) => of.map(([, y]) => y);
          expect(left[0]).toBe(all[0]);
          expect(left.at(-1)).toBe(all.at(-1));
          expect(Math.min(...ups(left))).toBe(Math.min(...ups(all)));
          expect(Math.max(...ups(left))).toBe(Math.max(...ups(all)));
          expect(left.length).toBeLessThanOrEqual(4);
        }
      }),
    );
  });

  it('of wide columns has at most four points a column, with their extremes', () => {
    const points = Array.from({ length: 3000 }, (_, i): Point => [i / 4, 20 * Math.sin(i / 40) + (i % 3)]);
    const kept = thinned(points, 10) as Point[];
    expect(kept.length).toBeLessThanOrEqual(4 * 75);
    for (let at = 0; at < 750; at += 10) {
      const of = (all: readonly Point[]) => all.filter(([x]) => x >= at && x < at + 10).map(([, y]) => y);
      expect([Math.min(...of(kept)), Math.max(...of(kept))]).toEqual([
        Math.min(...of(points)),
        Math.max(...of(points)),
      ]);
    }
  });

  it('keeps order and gaps', () => {
    const points: (Point | null)[] = [[0, 1], [1, 2], null, null, [2, 5], [3, 1]];
    expect(thinned(points)).toEqual([[0, 1], [1, 2], null, [2, 5], [3, 1]]);
    const many = Array.from({ length: 5000 }, (_, i): Point => [i / 100, Math.sin(i)]);
    const kept = thinned(many) as Point[];
    expect(kept.length).toBeLessThanOrEqual(200);
    expect(kept.every(([x], i) => i === 0 || x > kept[i - 1]![0])).toBe(true);
  });
});
