import { describe, expect, it } from 'vitest';
import { randomFrom } from '../../src/simulate/random.js';

const many = (draw: () => number, count = 100_000) => Array.from({ length: count }, draw);
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

describe('random numbers', () => {
  it('are the same for the same start and purpose', () => {
    const row = (start: number, stream: string) => many(randomFrom(start, stream).uniform, 5);
    expect(row(1, 'a')).toEqual(row(1, 'a'));
    expect(row(1, 'a')).not.toEqual(row(2, 'a'));
    expect(row(1, 'a')).not.toEqual(row(1, 'b'));
    expect(row(1, 'ab')).not.toEqual(row(1, 'ba'));
  });

  it('are even over 0 to 1', () => {
    const values = many(randomFrom(42, 'even').uniform);
    const tenths = Array.from({ length: 10 }, () => 0);
    for (const value of values) tenths[Math.floor(value * 10)]!++;
    // chi-square with 9 degrees of freedom: 27.9 is passed once in a thousand
    expect(tenths.reduce((sum, count) => sum + (count - 10_000) ** 2 / 10_000, 0)).toBeLessThan(27.9);
  });

  it('are normal: mean, sd, third and fourth moment', () => {
    const values = many(randomFrom(42, 'normal').normal);
    expect(Math.abs(mean(values))).toBeLessThan(0.012);
    expect(mean(values.map((value) => value ** 2))).toBeCloseTo(1, 1);
    expect(Math.abs(mean(values.map((value) => value ** 3)))).toBeLessThan(0.05);
    expect(mean(values.map((value) => value ** 4))).toBeCloseTo(3, 0);
  });

  it('do not repeat from one to the next', () => {
    const values = many(randomFrom(7, 'row').normal);
    const lagged = mean(values.slice(1).map((value, i) => value * values[i]!));
    expect(Math.abs(lagged)).toBeLessThan(0.012);
  });
});
