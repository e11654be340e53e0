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

describe('CSV for a spreadsheet', () => {
  const keys = ['crew', 'duration_s', 'duration_sd_s', 'at_s', 'split_s_per_500m', 'margin_s'];
  const rows = [
    {
      crew: 'A, B',
      duration_s: 421.64,
      duration_sd_s: 0.2,
      at_s: 12.5,
      split_s_per_500m: 105.41,
      margin_s: -1.5,
    },
  ];

  it('has decimal commas between semicolons, negative numbers as numbers, and a mark of its code', () => {
    expect(csvText(keys, rows, { decimal: 'comma', times: 'seconds' })).toBe(
      `\uFEFF${keys.join(';')}\nA, B;421,64;0,2;12,5;105,41;-1,5\n`,
    );
  });

  it('puts minutes and seconds beside lengths of time, and beside nothing else in seconds', () => {
    const [head, row] = csvText(keys, rows, { decimal: 'point', times: 'clock' }).split('\n');
    expect(head).toBe(
      'crew,duration_s,duration_clock,duration_sd_s,at_s,split_s_per_500m,split_clock_per_500m,margin_s',
    );
    expect(row).toBe('"A, B",421.64,7:01.6,0.2,12.5,105.41,1:45.4,-1.5');
  });

  it('has tabs where asked', () => {
    expect(csvText(['crew', 'at_s'], rows, undefined, 'tsv')).toBe('crew\tat_s\nA, B\t12.5\n');
  });
});
