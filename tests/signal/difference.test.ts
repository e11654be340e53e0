import { expect, it } from 'vitest';
import { difference } from '../../src/signal/index.js';

it('takes one signal from another, sample by sample, and leaves both as they were', () => {
  const [values, less] = [Float64Array.of(3, 5, -1), Float64Array.of(1, 7, -4)];
  expect([...difference(values, less)]).toEqual([2, -2, 3]);
  expect([...values, ...less]).toEqual([3, 5, -1, 1, 7, -4]);
});
