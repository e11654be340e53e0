import { describe, expect, it } from 'vitest';
import { evenGrid } from '../../src/signal/index.js';

describe('even grid', () => {
  it('keeps a straight line, whether samples are sparse, dense or uneven', () => {
    for (const step of [0.3, 1, 2.7]) {
      const positions = Float64Array.from({ length: 200 }, (_, i) => i + 0.3 * Math.sin(i * 7));
      const line = positions.map((x) => 2 * x + 1);
      const grid = evenGrid(positions, [line], step, 5);
      for (const [k, value] of grid.columns[0]!.entries())
        expect(value).toBeCloseTo(2 * (grid.start + k * grid.step) + 1, 9);
      expect(grid.mask.includes(1)).toBe(false);
    }
  });

  it('marks holes', () => {
    const positions = Float64Array.of(0, 1, 2, 3, 10, 11, 12);
    const grid = evenGrid(positions, [positions], 1, 2.5);
    expect([...grid.mask]).toEqual([0, 0, 0, 0, 1, 1, 1, 1, 1, 1, 0, 0, 0]);
  });
});
