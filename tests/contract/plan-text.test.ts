import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseInputFile } from '../../src/contract/input-file.js';
import { type PlanStep, plan, planOf, planOfSteps } from '../../src/contract/plan.js';
import { planInText } from '../../src/contract/plan-in-text.js';
import { parsePlanText } from '../../src/contract/plan-text.js';
import { askedSteps } from '../../src/workout/index.js';

const read = (text: string) => parsePlanText(text, 'the plan');

describe('a plan as it stands on a whiteboard', () => {
  it.each<[string, PlanStep[]]>([
    ['6 x 2:00 @ 28 / 1:00', [{ time: '2:00', rate: 28, rest: '1:00', repeat: 6 }]],
    [
      '3 x (4:00 @ 18, 3:00 @ 20, 2:00 @ 22) / 4:00',
      [
        {
          steps: [
            { time: '4:00', rate: 18 },
            { time: '3:00', rate: 20 },
            { time: '2:00', rate: 22 },
          ],
          rest: '4:00',
          repeat: 3,
        },
      ],
    ],
    ['8 x 500m @ 30-32 r 2:00', [{ distance: 500, rate: [30, 32], rest: '2:00', repeat: 8 }]],
    ['8X500 M@30–32 rest 120 sec', [{ distance: 500, rate: [30, 32], rest: '120 sec', repeat: 8 }]],
    ['2km @ 1:50.5', [{ distance: 2000, split: '1:50.5' }]],
    ['20min @ 18 @ 2:05/500m', [{ time: '20min', rate: 18, split: '2:05' }]],
    [
      '(1:00, 2:00 @ 20) @ 24',
      [
        {
          steps: [
            { time: '1:00', rate: 24 },
            { time: '2:00', rate: 20 },
          ],
        },
      ],
    ],
    [
      '10:00 @ 18\n3 x 90s @ 30 r90s\n',
      [
        { time: '10:00', rate: 18 },
        { time: '90s', rate: 30, rest: '90s', repeat: 3 },
      ],
    ],
  ])('%j is read', (text, steps) => {
    expect(read(text)).toEqual(steps);
  });

  it.each([
    ['6 x 2:00 @ fast / 1:00', 'fast', /a rate, as 28 or 28-30, or a split, as 1:50, is required after @/],
    ['6 x 500 @ 28', '500', /500 of what: write 500m, 500s or 500min/],
    ['2:00 @ 30-28', '30-28', /from low to high/],
    ['2:00 @ 300', '300', /a rate from 5 to 200 is required, and 300 came/],
    ['3 x (2:00 @ 20', '(', /not closed/],
    ['2:00)', ')', /nothing opens/],
    ['2:00 2:00', '2:00', /a comma before the next step/],
    ['2:00 @ 28 r 60', '60', /a length of rest, as 2:00, 90s or 20min, is required/],
    ['2:75 @ 28', '2:75', /a length of work/],
    ['0 x 2:00', '0 x', /a number of times from 1 to 100/],
    ['5m', '5m', /a distance from 10 to 100000 is required, and 5 came/],
  ])('a mistake in %j is marked under the text', (text, wrong, message) => {
    let said = '';
    try {
      read(text);
    } catch (error) {
      said = (error as Error).message;
    }
    expect(said).toMatch(message);
    const [, line, marks] = said.split('\n') as [string, string, string];
    expect(line).toBe(`  ${text}`);
    const from = marks.indexOf('^');
    expect(line.slice(from, marks.length)).toBe(wrong);
    expect(line.indexOf(wrong, text === '2:00 2:00' ? 4 : 0)).toBe(from);
    expect(said).toContain(`column ${from - 1}:`);
  });

  it('names the line of a mistake in a file of several', () => {
    expect(() => parsePlanText('10:00 @ 18\n5 x soon', 'plan.txt')).toThrow(
      /^plan\.txt, line 2, column 5: .*\n {2}5 x soon\n {6}\^\^\^\^$/,
    );
  });

  const clock = fc
    .integer({ min: 1, max: 3599 })
    .map((s) => `${Math.floor(s / 60)}:${String(s % 60).padStart(2, '0')}`);
  const time = fc.oneof(
    clock,
    fc.integer({ min: 1, max: 90 }).chain((n) => fc.constantFrom(`${n}s`, `${n}min`, String(n))),
  );
  const rate = fc.integer({ min: 5, max: 100 });
  const range = fc.tuple(rate, rate).map(([a, b]): [number, number] => [a, a + b]);
  const rung = {
    rest: fc.option(time, { nil: undefined }),
    split: fc.option(clock, { nil: undefined }),
    repeat: fc.option(fc.integer({ min: 1, max: 4 }), { nil: undefined }),
  };
  const single = fc.record({ time, rate: fc.option(fc.oneof(rate, range), { nil: undefined }), ...rung });
  const ladder = fc.record({
    distance: fc.constant([250, 500, 1000]),
    rate: fc.tuple(fc.oneof(rate, range), rate, rate).map((rates) => [...rates]),
    and_back: fc.boolean(),
    ...rung,
  });
  const { split: _, ...setKeys } = rung;
  const leaf = fc.oneof(single, ladder) as fc.Arbitrary<PlanStep>;
  const set = (inner: fc.Arbitrary<PlanStep>) =>
    fc.record({
      steps: fc.array(inner, { minLength: 1, maxLength: 3 }),
      and_back: fc.boolean(),
      ...setKeys,
    }) as fc.Arbitrary<PlanStep>;
  const steps = fc.array(fc.oneof(leaf, set(leaf), set(set(leaf))), { minLength: 1, maxLength: 3 });

  it('printed and read again, any plan asks for the same, and is printed alike', () => {
    fc.assert(
      fc.property(steps, (drawn) => {
        const text = planInText(drawn);
        const again = planOfSteps(read(text));
        expect(askedSteps(again)).toEqual(askedSteps({ name: 'drawn', steps: drawn }));
        expect(again.name).toBe(text);
      }),
    );
  });

  it('stands as a text in a plan file, whole or as a set', () => {
    const inJson = (value: unknown) =>
      planOf(parseInputFile(plan, JSON.stringify({ name: 'x', steps: value }), 'plan.json').value);
    const wanted = askedSteps(planOfSteps(read('2 x 2:00 @ 28 / 1:00')));
    expect(askedSteps(inJson('2 x 2:00 @ 28 / 1:00'))).toEqual(wanted);
    expect(askedSteps(inJson([{ steps: '2 x 2:00 @ 28 / 1:00' }]))).toEqual(wanted);
    expect(() => inJson('2 x 2:00 @ fast')).toThrow(
      /plan\.json, line 1: key "steps": at "fast": a rate, as 28/,
    );
  });
});
