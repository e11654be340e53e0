import { expect, it } from 'vitest';
import { firstAtLeast } from '../../src/units/first-at-least.js';

it.each([
  [-1, 0],
  [0, 0],
  [0.5, 1],
  [2, 2],
  [3, 3],
])('the first value of at least %d is number %i', (asked, index) => {
  expect(firstAtLeast(Float64Array.of(0, 1, 2), asked)).toBe(index);
});
