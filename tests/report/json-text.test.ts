import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { jsonText, ndjsonText } from '../../src/report/json-text.js';

describe('JSON for terminals and programs', () => {
  it('means the same as before and holds nothing that a terminal obeys', () => {
    fc.assert(
      fc.property(
        fc.jsonValue(),
        fc.string({ unit: fc.constantFrom('\u009b', '\u202e', '\u007f', 'a') }),
        (value, text) => {
          const whole = { value, text };
          const written = jsonText(whole);
          expect(JSON.parse(written)).toEqual(JSON.parse(JSON.stringify(whole)));
          expect(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]/.test(written)).toBe(false);
        },
      ),
    );
  });

  it('is one line a row', () => {
    expect(ndjsonText([{ a: 'x\ny' }, { a: null }])).toBe('{"a":"x\\ny"}\n{"a":null}\n');
  });
});
