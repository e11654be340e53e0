import { expect, it } from 'vitest';
import { dot, unit } from '../../src/strokes/vector.js';

it('a unit vector keeps its direction and has length 1', () => {
  expect(unit([3, 0, -4])).toEqual([0.6, 0, -0.8]);
  expect(dot(unit([1, 2, 3]), unit([1, 2, 3]))).toBeCloseTo(1, 12);
});

it('the product of vectors at right angles is 0', () => {
  expect(dot([1, 2, 0], [-2, 1, 5])).toBe(0);
});
