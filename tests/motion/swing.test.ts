import { expect, it } from 'vitest';
import { firstOrderDensity, secondOrderDensity, swingLikelihood, swingOf } from '../../src/motion/swing.js';
import { makeRandom } from '../simulator/random.js';

const STEP_S = 0.5;
const COUNT = 480;

/** A first-order process of unit variance. */
const series = (seed: number, correlationS: number): Float64Array => {
  const random = makeRandom(seed);
  const keep = Math.exp(-STEP_S / correlationS);
  let state = random.normal();
  return Float64Array.from(
    { length: COUNT },
    () => (state = keep * state + Math.sqrt(1 - keep * keep) * random.normal()),
  );
};

it('gives white values the same density at every swing: their variance over their rate', () => {
  const random = makeRandom(1);
  const means = Array.from({ length: 40 }, () => {
    const { power } = swingOf(
      Float64Array.from({ length: COUNT }, () => 0.3 * random.normal()),
      STEP_S,
      0,
    );
    return power.reduce((sum, value) => sum + value, 0) / power.length;
  });
  const mean = means.reduce((sum, value) => sum + value, 0) / means.length;
  expect(mean / (0.09 * STEP_S)).toBeGreaterThan(0.9);
  expect(mean / (0.09 * STEP_S)).toBeLessThan(1.1);
});

it('finds a wave at its own period and not at others', () => {
  const values = Float64Array.from({ length: COUNT }, (_, i) => Math.sin((2 * Math.PI * i * STEP_S) / 40));
  const { angularHz, power } = swingOf(values, STEP_S, 1);
  const at = power.indexOf(Math.max(...power));
  expect((2 * Math.PI) / angularHz[at]!).toBeCloseTo(40, 6);
  expect(power[at + 3]! / power[at]!).toBeLessThan(1e-4);
});

it('gives the likeliest process the variance and the correlation time it was made with', () => {
  const swings = Array.from({ length: 30 }, (_, seed) => swingOf(series(seed, 10), STEP_S, 1));
  const likelihood = (variance: number, correlationS: number): number =>
    swings.reduce(
      (sum, swing) =>
        sum +
        swingLikelihood(
          swing,
          swing.angularHz.map((w) => variance * firstOrderDensity(w, correlationS)),
        ),
      0,
    );
  expect(likelihood(1, 10)).toBeGreaterThan(likelihood(0.6, 10) + 2);
  expect(likelihood(1, 10)).toBeGreaterThan(likelihood(1.7, 10) + 2);
  expect(likelihood(1, 10)).toBeGreaterThan(likelihood(1, 5) + 2);
  expect(likelihood(1, 10)).toBeGreaterThan(likelihood(1, 20) + 2);
});

it('knows densities whose integral over all swings is the variance', () => {
  for (const density of [firstOrderDensity, secondOrderDensity]) {
    let sum = 0;
    for (let w = 0.0005; w < 200; w += 0.001) sum += density(w, 7) * 0.001;
    expect(sum / Math.PI).toBeCloseTo(1, 2);
    expect(density(0, 7)).toBeCloseTo(14, 9);
  }
});
