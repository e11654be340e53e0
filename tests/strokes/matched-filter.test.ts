import { describe, expect, it } from 'vitest';
import {
  matchTwo,
  type NoisePower,
  spectraOf,
  type Template,
  usualPower,
} from '../../src/strokes/matched-filter.js';
import { makeRandom } from '../simulator/random.js';

const white = (count: number, sd: number, seed: number) => {
  const random = makeRandom(seed);
  return Float64Array.from({ length: count }, () => sd * random.normal());
};

const pulse: Template = {
  before: 8,
  values: Float64Array.from({ length: 21 }, (_, i) => Math.exp(-0.5 * ((i - 8) / 3) ** 2)),
};

const matchTemplate = (values: Float64Array, template: Template, power: NoisePower): Float64Array =>
  matchTwo(values, { template, power }, { template, power })[0];

describe('matched filter', () => {
  it('gives white noise its power', () => {
    const power = usualPower(spectraOf(white(20_000, 0.3, 1), new Uint8Array(20_000)))!;
    const mean = power.reduce((sum, value) => sum + value, 0) / power.length;
    expect(mean).toBeGreaterThan(0.085);
    expect(mean).toBeLessThan(0.095);
  });

  it('in white noise is the plain correlation with the template, everywhere', () => {
    const values = white(3000, 1, 2);
    const flat = new Float64Array(256).fill(1);
    const amplitude = matchTemplate(values, pulse, flat);
    const energy = pulse.values.reduce((sum, value) => sum + value * value, 0);
    for (const at of [8, 700, 767, 768, 1500, 2980]) {
      let sum = 0;
      for (const [i, value] of pulse.values.entries()) sum += value * values[at + i - pulse.before]!;
      // the design tapers its far taps, by 1 % here
      expect(Math.abs(amplitude[at]! - sum / energy)).toBeLessThan(0.02);
    }
  });

  it('finds the amplitude of a pulse, and two templates at once as one by one', () => {
    const clean = new Float64Array(1000);
    clean.set(
      pulse.values.map((value) => 2.5 * value),
      492,
    );
    const other: Template = { before: 2, values: Float64Array.of(0, -1, 2, 1, 0) };
    const power = new Float64Array(256).fill(0.04);
    expect(matchTemplate(clean, pulse, power)[500]).toBeCloseTo(2.5, 6);
    const [first, second] = matchTwo(clean, { template: pulse, power }, { template: other, power });
    for (const [i, value] of matchTemplate(clean, pulse, power).entries())
      expect(first[i]).toBeCloseTo(value, 9);
    for (const [i, value] of matchTemplate(clean, other, power).entries())
      expect(second[i]).toBeCloseTo(value, 9);
  });
});
