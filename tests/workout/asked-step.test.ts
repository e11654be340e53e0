import { describe, expect, it } from 'vitest';
import { parseInputFile } from '../../src/contract/input-file.js';
import { plan as planFile, planOf } from '../../src/contract/plan.js';
import { askedSteps } from '../../src/workout/index.js';

const expanded = (steps: unknown[]) => {
  const { value } = parseInputFile(planFile, JSON.stringify({ name: 'test', steps }, null, 1), 'plan.json');
  return askedSteps(planOf(value)).map(({ askedS, askedM, rateFromSpm, rateToSpm, restS }) => [
    askedS ?? `${askedM} m`,
    rateFromSpm === rateToSpm ? rateFromSpm : `${rateFromSpm}-${rateToSpm}`,
    restS,
  ]);
};

describe('a plan, expanded', () => {
  it('repeats a step with its rest', () => {
    expect(expanded([{ time: '1:00', rate: 34, rest: '1:00', repeat: 3 }])).toEqual(
      Array(3).fill([60, 34, 60]),
    );
  });

  it('climbs a list and comes down again, its top once', () => {
    const steps = expanded([
      { time: ['1:00', '2:00', '3:00'], rate: [24, 22, [18, 20]], rest: '30s', and_back: true },
    ]);
    expect(steps).toEqual([
      [60, 24, 30],
      [120, 22, 30],
      [180, '18-20', 30],
      [120, 22, 30],
      [60, 24, 30],
    ]);
  });

  it('takes two rates of one length for a range, and three for a ladder', () => {
    expect(expanded([{ distance: 500, rate: [32, 34] }])).toEqual([['500 m', '32-34', 0]]);
    expect(expanded([{ time: '2:00', rate: [20, 24, 28] }])).toEqual([
      [120, 20, 0],
      [120, 24, 0],
      [120, 28, 0],
    ]);
    expect(expanded([{ distance: [250, 500], rate: [32, 30] }])).toEqual([
      ['250 m', 32, 0],
      ['500 m', 30, 0],
    ]);
  });

  it('nests sets, the longer rest counting after each round', () => {
    const set = [
      { time: '1:00', rest: '0:30' },
      { time: '2:00', rest: '1:00' },
    ];
    expect(expanded([{ repeat: 2, rest: '4:00', steps: set }])).toEqual([
      [60, null, 30],
      [120, null, 240],
      [60, null, 30],
      [120, null, 240],
    ]);
    expect(expanded([{ steps: set, and_back: true }]).map(([length]) => length)).toEqual([60, 120, 60]);
  });

  it.each([
    ['no steps', [], /line 3: key "steps" must be a list of at least 1/],
    ['rate 300', [{ time: '1:00', rate: 300 }], /key "rate" must be a number of at most 200, and 300 came/],
    ['both', [{ time: '1:00', distance: 500 }], /key "distance": give either time or distance, not both/],
    ['neither', [{ rate: 30 }], /a step needs a time, a distance or steps of its own/],
    ['a time that is none', [{ time: 'soon' }], /write a time as 1:00, 90s or 20min/],
    [
      'unequal lists',
      [{ time: ['1:00', '2:00'], rate: [20, 22, 24] }],
      /lists of one step are of one length/,
    ],
    ['a range upside down', [{ time: '1:00', rate: [30, 28] }], /a range of rates goes from low to high/],
    ['nothing to come back', [{ time: '1:00', and_back: true }], /only a list of lengths or rates/],
    ['a set with a time', [{ time: '1:00', steps: [{ time: '1:00' }] }], /not both/],
    ['a typing mistake', [{ tiem: '1:00' }], /tiem/],
  ])('refuses %s with line and key', (_, steps, message) => {
    expect(() => expanded(steps)).toThrow(message);
    expect(() => expanded(steps)).toThrow(/^plan\.json, line \d+: /);
  });

  it('of more steps than can be matched is refused, and says how many, without writing them out', () => {
    const nested = (depth: number): unknown =>
      depth === 0 ? { time: '1:00' } : { repeat: 100, steps: [nested(depth - 1)] };
    expect(() => expanded([nested(2)])).toThrow(/10000 steps .* at most 2000/);
    expect(() => expanded([nested(20)])).toThrow(/1e\+40 steps/);
    expect(expanded([{ repeat: 20, steps: [nested(1)] }])).toHaveLength(2000);
  });
});
