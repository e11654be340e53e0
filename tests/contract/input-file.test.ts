import { describe, expect, it } from 'vitest';
import * as z from 'zod';
import { parseInputFile } from '../../src/contract/input-file.js';

const step = z.strictObject({
  rate: z.union([z.number().min(10).max(60), z.array(z.number())]),
  kind: z.enum(['rest', 'rowing']),
  repeat: z.int().min(1).optional(),
});
const plan = z.strictObject({
  schema: z.literal('thole/plan/1').optional(),
  name: z.string(),
  steps: z.array(step).min(1),
});

const fault = (text: string): string => {
  try {
    parseInputFile(plan, text, 'plan.json');
  } catch (error) {
    return `${(error as Error).name} ${(error as Error).message}`;
  }
  return 'none';
};
const withStep = (text: string): string => `{\n "name": "x",\n "steps": [\n  ${text}\n ]\n}`;

describe('an input file', () => {
  it('is handed on where it is valid', () => {
    const { value, errorAt } = parseInputFile(plan, withStep('{"rate": 30, "kind": "rowing"}'), 'plan.json');
    expect(value.steps[0]!.rate).toBe(30);
    expect(errorAt(['steps', 0, 'kind'], 'never mind').message).toBe('plan.json, line 4: never mind');
  });

  it.each([
    ['{"rate": 30, "kind": "sprint"}', 'key "kind" must be one of rest, rowing, and "sprint" came'],
    ['{"rate": 30}', 'key "kind" is missing: one of rest, rowing is required'],
    ['{"rate": 5, "kind": "rest"}', 'key "rate" must be a number of at least 10, and 5 came'],
    ['{"rate": "5", "kind": "rest"}', 'key "rate" must be a number, or a list in [ ], and "5" came: write 5'],
    ['{"rate": [1, "x"], "kind": "rest"}', 'key "rate" (entry 2) must be a number, and "x" came'],
    ['{"rate": 30, "kind": "rest", "repeat": 1.5}', 'key "repeat" must be a whole number, and 1.5 came'],
    [
      '{"rate": 30, "kind": "rest", "repaet": 2}',
      'key "repaet" is not known here; did you mean "repeat"? Allowed: rate, kind, repeat',
    ],
  ])('%s: line, key and what is allowed', (text, what) => {
    expect(fault(withStep(text))).toBe(`UserError plan.json, line 4: ${what}`);
  });

  it('tells the first mistake and counts the others', () => {
    expect(fault('{\n "name": 1,\n "steps": []\n}')).toBe(
      'UserError plan.json, line 2: key "name" must be a text in double quotes, and 1 came: write "1" (and 1 more mistake)',
    );
    expect(fault('[]')).toBe(
      'UserError plan.json, line 1: the file must be a group of keys in { }, and [] came',
    );
  });

  it('says of a file of another kind only that it is one', () => {
    expect(fault('{\n "laps": 3,\n "schema": "thole/curve/1"\n}')).toBe(
      'UserError plan.json, line 3: key "schema" must be "thole/plan/1", and "thole/curve/1" came',
    );
  });
});
