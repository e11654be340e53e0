import { expect, it } from 'vitest';
import { negated } from '../../src/signal/index.js';

it('turns the sign of every sample and leaves the signal as it was', () => {
  const values = Float64Array.of(1.5, -2, 7);
  expect([...negated(values)]).toEqual([-1.5, 2, -7]);
  expect([...values]).toEqual([1.5, -2, 7]);
});
