import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvCell, csvText } from '../../src/report/csv-text.js';

describe('CSV', () => {
  it('comes back through an independent parser with one record a row', () => {
    fc.assert(
      fc.property(fc.array(fc.record({ a: fc.string(), b: fc.option(fc.integer()) })), (rows) => {
        const back = parse(csvText(['a', 'b'], rows)) as string[][];
        expect(back).toHaveLength(rows.length + 1);
        rows.forEach((row, i) => {
          expect(back[i + 1]![1]).toBe(row.b === null ? '' : String(row.b));
        });
      }),
    );
  });

  it('never lets text start a formula, and leaves negative numbers alone', () => {
    fc.assert(
      fc.property(fc.constantFrom('=', '+', '-', '@', '\t', '\r'), fc.string(), (first, rest) => {
        const [[cell]] = parse(csvText(['a'], [{ a: first + rest }]), { from: 2 }) as [[string]];
        expect(cell.startsWith("'")).toBe(true);
      }),
    );
    for (const text of ['＝1+1', '＋1', '－1', '＠x', 'a;=1+1', 'a; =1', 'a;"=1', 'a;＝1', 'a;b;-1'])
      expect(csvCell(text)).toMatch(/(^|;)'/);
    expect(csvCell('a-b; c=d')).toBe('a-b; c=d');
    expect(csvCell(-1.5)).toBe('-1.5');
    expect(csvCell(null)).toBe('');
    expect(csvCell('a,"b"')).toBe('"a,""b"""');
  });
});
