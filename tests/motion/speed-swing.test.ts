import { expect, it } from 'vitest';
import { sectionsOf } from '../../src/motion/section.js';
import { hullSwings, speedSwings, steadinessLikelihood } from '../../src/motion/speed-swing.js';
import { makeRandom } from '../simulator/random.js';
import { evenTimes, straightLog } from './made-log.js';

const WHITE_M2PS = 0.05 ** 2 / 5;

/** Rowing for 600 s between rests, with a stroke every 2.4 s, a swing of the hull and a white error of the speed. */
const sectionOf = (swingMps: number) => {
  const random = makeRandom(3);
  let slow = 0;
  const keep = Math.exp(-0.2 / 12);
  const { position, speed } = straightLog({
    atS: evenTimes(660, 5),
    alongM: (at) => 4 * at,
    speedMps: (at) => {
      slow = keep * slow + Math.sqrt(1 - keep * keep) * random.normal();
      if (at < 30 || at > 630) return 0;
      return 4 + 0.4 * Math.sin((2 * Math.PI * at) / 2.4) + swingMps * slow + 0.05 * random.normal();
    },
  }).channels;
  return sectionsOf(position!, speed!, null).sections[0]!;
};

const saidOf = (swingMps: number, sdMps: number): number =>
  steadinessLikelihood(hullSwings(sectionOf(swingMps), WHITE_M2PS), { sdMps, correlationS: 12 });

it('takes stretches at way after they have settled, cut into equal parts, strokes left out', () => {
  const swings = speedSwings(sectionOf(0));
  expect(swings).toHaveLength(3);
  for (const { angularHz, power } of swings) {
    expect((2 * Math.PI) / angularHz[0]!).toBeCloseTo(185 / 2, -1);
    const mean = power.reduce((sum, value) => sum + value, 0) / power.length;
    expect(mean / WHITE_M2PS).toBeGreaterThan(0.4);
    expect(mean / WHITE_M2PS).toBeLessThan(2);
  }
});

it('rules out an error that a steady boat would have shown, and none that hides in an unsteady one', () => {
  expect(saidOf(0, 0.03)).toBeLessThan(-5);
  expect(saidOf(0, 0.03)).toBeLessThan(saidOf(0, 0.01) - 3);
  expect(saidOf(0.06, 0.03)).toBeGreaterThan(-1);
});

it('never says that there is an error: what swings may be the hull', () => {
  for (const swingMps of [0, 0.02, 0.06])
    for (const sdMps of [0.01, 0.03, 0.1]) expect(saidOf(swingMps, sdMps)).toBeLessThanOrEqual(0);
});
