import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { figures, type Reading, words } from '../../src/report/section.js';
import { tableText } from '../../src/report/table-text.js';

const READING: Reading = { speed: null, zone: 'UTC', plain: false, bold: false, width: 80 };

describe('a table for a terminal', () => {
  it('puts figures under one another at the right', () => {
    const section = {
      title: 'Pieces',
      columns: [words('crew'), figures('rate')],
      rows: [
        ['Heron', '28.1'],
        ['Coot and Diver', '9'],
      ],
      notes: ['One note.'],
    };
    expect(tableText([section], READING)).toBe(
      'Pieces\ncrew            rate\nHeron           28.1\nCoot and Diver     9\nOne note.\n',
    );
  });

  it('breaks long words columns so that nothing is wider than the terminal, and loses nothing', () => {
    fc.assert(
      fc.property(fc.array(fc.stringMatching(/^[a-z ]{1,120}$/), { minLength: 1 }), (texts) => {
        const rows = texts.map((text) => ['12', text, '7:12.3 ±0.4']);
        const text = tableText(
          [{ title: null, columns: [figures('n'), words('why'), figures('time')], rows, notes: [] }],
          READING,
        );
        for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
        const letters = (what: string) => what.replace(/[^a-z]/g, '').length;
        expect(letters(text)).toBe(letters(`nwhytime${texts.join('')}`));
      }),
    );
  });

  it('breaks headings of figures, then closes up, before it is wider than the terminal; figures stay whole', () => {
    const columns = [
      'piece',
      'from',
      'outcome',
      'distance',
      'time',
      'rate',
      'split /500 m',
      'm/stroke',
      'in all',
    ];
    const row = [
      '1',
      '10:20:10',
      'complete',
      '2000 m',
      '6:09.6 ±0.2',
      '35.9',
      '1:32.4',
      '9.04',
      '12:34.5 ±0.2',
    ];
    const section = { title: null, columns: columns.map(figures), rows: [row], notes: [] };
    const roomy = tableText([section], { ...READING, width: 100 });
    expect(roomy.split('\n')[0]).toContain('split /500 m');
    const text = tableText([section], READING);
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
    for (const figure of row) expect(text).toContain(figure);
  });

  it('is plain ASCII where asked, and lets no control character through', () => {
    const section = {
      title: 'a\u001b[31m',
      columns: [words('m/s²')],
      rows: [['±1 – 2\u0007']],
      notes: ['5°'],
    };
    const plain = tableText([section], { ...READING, plain: true });
    expect(plain).toBe('a [31m\nm/s2\n+-1 - 2\n5 deg\n');
  });
});
