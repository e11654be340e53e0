import { describe, expect, it } from 'vitest';
import { regattaResults } from '../../src/regatta/index.js';
import { casesOf, courseOf, field, trueCrossingS } from './simulated-regatta.js';

const REGATTAS = 100;
const CREWS = 3;

const quantile = (values: readonly number[], share: number): number =>
  [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(share * values.length))]!;

describe('a hundred simulated regattas, 10 Hz, position sd 0.8 m over 200 s', () => {
  const course = courseOf(800);
  const last = course.lines.length - 1;
  const ask = { start: 'own', intervalS: null, targets: [], against: null } as const;
  const errors: number[] = [];
  let [inside, separated, wrong] = [0, 0, 0];
  for (let seed = 1; seed <= REGATTAS; seed++) {
    const crews = field(seed, CREWS, { restS: 20, rowS: 205, meanMps: 4.6, spreadMps: 0.03 }, true);
    const { cases, twins } = casesOf(crews, course);
    const truth = new Map(
      crews.map(({ crew, bowOffsetM }, i) => [
        crew,
        trueCrossingS(twins[i]!, course, last, bowOffsetM) - trueCrossingS(twins[i]!, course, 0, bowOffsetM),
      ]),
    );
    const { results } = regattaResults(cases, course, ask, []);
    results.forEach((row, i) => {
      const error = row.duration_s! - truth.get(row.crew)!;
      errors.push(Math.abs(error));
      if (Math.abs(error) <= 2 * row.duration_sd_s!) inside++;
      for (const ahead of results.slice(0, i)) {
        const margin = row.duration_s! - ahead.duration_s!;
        if (margin <= 2 * Math.hypot(row.duration_sd_s!, ahead.duration_sd_s!)) continue;
        separated++;
        if (truth.get(row.crew)! < truth.get(ahead.crew)!) wrong++;
      }
    });
  }
  const count = REGATTAS * CREWS;
  const told = `median ${quantile(errors, 0.5).toFixed(3)} s, 95 % ${quantile(errors, 0.95).toFixed(3)} s, inside ${((100 * inside) / count).toFixed(1)} %, ${wrong} of ${separated} separable pairs wrong`;

  it('times from line to line within 0.2 s and 0.6 s', () => {
    expect(errors.length).toBe(count);
    expect(quantile(errors, 0.5), told).toBeLessThan(0.2);
    expect(quantile(errors, 0.95), told).toBeLessThan(0.6);
  });

  it('knows how sure it is', () => {
    expect(inside / count, told).toBeGreaterThan(0.92);
    expect(inside / count, told).toBeLessThan(0.98);
  });

  it('ranks hardly any pair wrongly that it calls separable', () => {
    expect(separated, told).toBeGreaterThan(50);
    expect(wrong, told).toBeLessThanOrEqual(separated / 40);
  });
});
