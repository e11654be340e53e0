import { expect, it } from 'vitest';
import { energyOf, meanSquare } from '../../src/signal/index.js';

it('adds up the squares of a signal, or of a stretch of it', () => {
  const values = Float64Array.of(3, -4, 12);
  expect(energyOf(values)).toBe(169);
  expect(energyOf(values, 1, 2)).toBe(16);
  expect(meanSquare(values)).toBe(169 / 3);
});
