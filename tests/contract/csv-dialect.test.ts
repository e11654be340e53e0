import { describe, expect, it } from 'vitest';
import { dialectOf, pointed } from '../../src/contract/csv-dialect.js';
import { parseCsvFile } from '../../src/contract/located-csv.js';

const COLUMNS = ['crew', 'craft', 'handicap_s', 'start_time'];
const read = (text: string) => parseCsvFile(text, 'entries.csv', COLUMNS, 1);

const said = (run: () => unknown): string => {
  try {
    run();
  } catch (error) {
    return (error as Error).message;
  }
  return 'nothing';
};

describe('the dialect of an input file', () => {
  it.each([
    ['crew,craft\nA;B,2x', ','],
    ['crew;craft;handicap_s\nA;2x;1,5', ';'],
    ['crew\tcraft\nA\t2x', '\t'],
    ['"crew";"craft"\n"A";"2x"', ';'],
    ['sep=;\ncrew;craft\nA;2x', ';'],
    // One heading of a text with commas in it: the known column decides.
    ['crew;"notes, all"\nA;x', ';'],
  ])('%j', (text, delimiter) => {
    expect(dialectOf(text, COLUMNS).delimiter).toBe(delimiter);
  });

  it('reads one file whichever country wrote it', () => {
    const texts = [
      'crew,craft,handicap_s,start_time\nÖ,2x,12.5,2026-05-13 10:20:00\n',
      '\uFEFFcrew;craft;handicap_s;start_time\r\nÖ;2x;12,5;13.05.2026 10:20\r\n',
      'sep=;\r\ncrew;craft;handicap_s;start_time\r\nÖ;2x;12,5;13/05/2026 10:20:00\r\n',
      'crew\tcraft\thandicap_s\tstart_time\nÖ\t2x\t12,5\t2026-05-13T10:20Z\n',
    ];
    for (const text of texts) {
      const [line] = read(text);
      expect([
        line!.cell('crew'),
        line!.number('handicap_s', 0, 99),
        line!.instant('start_time', 'UTC'),
      ]).toEqual(['Ö', 12.5, Date.UTC(2026, 4, 13, 10, 20) / 1000]);
    }
  });

  it('refuses, with its line, a number or a day that can be read in two ways', () => {
    const thousands = read('crew,handicap_s\nA,"1,234"\n')[0]!;
    expect(said(() => thousands.number('handicap_s', 0, 9999))).toBe(
      'entries.csv, line 2, column handicap_s: "1,234" may be 1234 or 1.234: write it without a mark between thousands, or with another number of decimals',
    );
    const german = read('crew;handicap_s\nA;1.234\n')[0]!;
    expect(said(() => german.number('handicap_s', 0, 9999))).toContain('may be 1234 or 1.234');
    const semicolons = read('crew;start_time\nA;05/06/2026 10:20\n')[0]!;
    expect(said(() => semicolons.instant('start_time', 'UTC'))).toContain('may have the day or the month');
    const day = read('crew,start_time\nA,05/06/2026 10:20\n')[0]!;
    expect(said(() => day.instant('start_time', 'UTC'))).toContain('may have the day or the month first');
  });

  it('takes a time without an offset in the zone given', () => {
    const line = read('crew;start_time\nA;1.7.2026 10:20\n')[0]!;
    expect(line.instant('start_time', 'Europe/Zurich')).toBe(Date.UTC(2026, 6, 1, 8, 20) / 1000);
  });

  it('answers headings of which none is known with what was found and the nearest known ones', () => {
    const message = said(() => read('Crews;Boot;Zeit\nA;2x;1\n'));
    expect(message).toContain('found: "Crews", "Boot", "Zeit"');
    expect(message).toContain('"Crews" may be "crew"');
    expect(message).toContain('line 1');
  });
});

describe('a decimal sign', () => {
  it.each([
    ['7:01,6', ',', '7:01.6'],
    ['7:01,6', ';', '7:01.6'],
    ['-0,25', ';', '-0.25'],
    ['1 234,5', ';', '1234.5'],
    ['0,125', ',', '0.125'],
    ['1,234', ';', '1.234'],
    ['light tail', ';', 'light tail'],
  ] as const)('%s between %s is %s', (text, delimiter, expected) => {
    expect(pointed(text, { delimiter })).toBe(expected);
  });
});
