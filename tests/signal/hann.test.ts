import { expect, it } from 'vitest';
import { hann } from '../../src/signal/index.js';

it('makes windows that add up to 1 where they overlap by half', () => {
  const window = hann(64);
  expect([window[0], window[16], window[32]]).toEqual([0, expect.closeTo(0.5, 12), 1]);
  for (let i = 0; i < 32; i++) expect(window[i]! + window[i + 32]!).toBeCloseTo(1, 12);
});
