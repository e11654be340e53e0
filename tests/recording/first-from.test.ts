import { expect, it } from 'vitest';
import { firstFrom } from '../../src/recording/first-from.js';

it.each([
  [-1, 0],
  [0, 0],
  [0.5, 1],
  [2, 2],
  [3, 3],
])('the first sample at or after %d s is sample %i', (fromS, sample) => {
  expect(firstFrom(Float64Array.of(0, 1, 2), fromS)).toBe(sample);
});
