import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseLocatedJson } from '../../src/contract/located-json.js';

const fault = (text: string): string => {
  try {
    parseLocatedJson(text, 'x.json');
  } catch (error) {
    return (error as Error).message;
  }
  return 'none';
};

describe('located JSON', () => {
  it('reads what JSON.parse reads, whatever the value and the layout', () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.constantFrom(0, 2, '\t'), (value, indent) => {
        const text = JSON.stringify(value, null, indent);
        fc.pre(!text.includes('"__proto__"'));
        expect(parseLocatedJson(text, 'x').value).toEqual(JSON.parse(text));
      }),
    );
  });

  it('refuses what JSON.parse refuses', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...'{}[]",:0123.-eE truefalsnu\\\n') }), (text) => {
        const refused = (parse: () => unknown) => {
          try {
            parse();
            return false;
          } catch {
            return true;
          }
        };
        fc.pre(!fault(text).includes('twice'));
        expect(refused(() => parseLocatedJson(text, 'x'))).toBe(refused(() => JSON.parse(text)));
      }),
      { numRuns: 2000 },
    );
  });

  it('knows where each key and entry stands', () => {
    const { placeOf } = parseLocatedJson('{\n  "a": 1,\n  "b": [\n    2,\n    {"c": 3}\n  ]\n}', 'x');
    expect(placeOf(['b'])).toEqual({ line: 3, column: 3 });
    expect(placeOf(['b', 1, 'c'])).toEqual({ line: 5, column: 6 });
    expect(placeOf(['b', 1, 'missing'])).toEqual({ line: 5, column: 5 });
    expect(placeOf([])).toEqual({ line: 1, column: 1 });
  });

  it('says where it is not JSON, and what was required', () => {
    expect(fault('{\n  "a": 1\n  "b": 2\n}')).toBe(
      'x.json, line 3, column 3: not valid JSON: a comma or } is required, and "\\"" came',
    );
    expect(fault('{"a": 1, "a": 2}')).toContain(
      'line 1, column 10: not valid JSON: the key "a" is there twice',
    );
    expect(fault('{"a": 01}')).toContain('a value is required');
    expect(fault('')).toContain('the file ends there');
    expect(fault('[1,]')).toContain('line 1, column 4');
    expect(fault('['.repeat(100_000))).toContain('nested more than');
  });
});
