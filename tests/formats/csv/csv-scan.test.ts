import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvLayout } from '../../../src/formats/csv/csv-layout.js';
import { csvByteSource } from '../../../src/formats/csv/csv-scan.js';
import { type CsvSource, csvTextSource } from '../../../src/formats/csv/csv-source.js';

const NAMES = ['note', 'time_ms', 'ax_g', 'ay_g', 'az_g', 'lat', 'lon'];
const TIME = 1;
const NUMBERS = [2, 3, 4, 5, 6];

const shown = (source: CsvSource) => ({
  rowCount: source.rowCount,
  ragged: source.ragged,
  firstTime: source.firstTime({ time: TIME, date: null }),
  numbers: NUMBERS.map((column) => [...source.numbers(column)]),
  unreadable: NUMBERS.map((column) => source.unreadable(column)),
});

/** The scanner gives what the parser gives, to the bit, or declines; returns whether it took the text. */
const taken = (text: string): boolean => {
  const layout = csvLayout(text, new Set());
  const found = [TIME, ...NUMBERS].every((column) => column < layout.header.length);
  if (!layout.named || !found) return false;
  const bytes = new TextEncoder().encode(text);
  const scanned = csvByteSource(bytes, layout, { numbers: NUMBERS, times: [TIME] });
  if (scanned === null) return false;
  const parsed = csvTextSource(text, layout);
  expect(shown(scanned)).toEqual(shown(parsed));
  const columns = { time: TIME, date: null };
  const first = scanned.firstTime(columns);
  const dated = Number.isNaN(Number(first));
  expect([...(dated ? scanned.unixS(columns) : scanned.numbers(TIME))]).toEqual([
    ...(dated ? parsed.unixS(columns) : parsed.numbers(TIME)),
  ]);
  return true;
};

const number = fc.oneof(
  {
    weight: 20,
    arbitrary: fc.tuple(fc.integer({ min: -999, max: 999 }), fc.nat(1e7)).map((parts) => parts.join('.')),
  },
  { weight: 2, arbitrary: fc.integer().map(String) },
  { weight: 1, arbitrary: fc.double().map(String) },
  {
    weight: 1,
    arbitrary: fc.constantFrom(
      ...['', '-0', '+.5', '5.', '1e-3', '0.00000000000000000000000123', '123456789012345678', ' 4 '],
    ),
  },
);
const odd = fc.constantFrom('NaN', 'x', '"5"', '-', '5 6', '1.2.3', '#', '\u00e9');
const cell = fc.oneof({ weight: 60, arbitrary: number }, { weight: 1, arbitrary: odd });
const note = fc.constantFrom('', 'ok', 'a b', 'caf\u00e9', '7', '"q"', '#c');
const time = fc.oneof(
  { weight: 8, arbitrary: fc.nat(1e6).map(String) },
  { weight: 1, arbitrary: fc.constantFrom('', '5.25', 'late') },
);
const date = fc.oneof(
  {
    weight: 8,
    arbitrary: fc.nat(59).map((second) => `2026-04-03T10:00:${String(second).padStart(2, '0')}.125Z`),
  },
  {
    weight: 1,
    arbitrary: fc.constantFrom(
      ...[
        '',
        '2026-04-03 10:00:00',
        '2026/04/03 10:00:00 UTC',
        '2026-04-03T10:00:00+02:00',
        '5',
        '2026-02-30T10:00:00Z',
      ],
    ),
  },
);
const rowOf = (stamp: fc.Arbitrary<string>) =>
  fc.tuple(
    fc.oneof({ weight: 9, arbitrary: fc.constant('') }, { weight: 1, arbitrary: note }),
    stamp,
    cell,
    cell,
    cell,
    cell,
    cell,
  );
const file = fc
  .tuple(
    fc.oneof(fc.array(rowOf(time), { maxLength: 8 }), fc.array(rowOf(date), { maxLength: 8 })),
    fc.constantFrom(',', ';', '\t'),
    fc.constantFrom('\n', '\r\n', '\r'),
    fc.constantFrom('', '\ufeff', '# made by a logger\n', '\n'),
    fc.boolean(),
    fc.boolean(),
  )
  .map(([rows, delimiter, end, head, quoted, closed]) => {
    const names = quoted ? NAMES.map((name) => `"${name}"`) : NAMES;
    return head + [names, ...rows].map((row) => row.join(delimiter)).join(end) + (closed ? end : '');
  });

const PIECES = [
  ',',
  ';',
  '\t',
  '\n',
  '\r',
  ' ',
  '"',
  '#',
  '-',
  '.',
  'e5',
  '9',
  '\n\n',
  '\n  \n',
  ',,',
  'x',
  '\u00e9',
  '# c\n',
];

describe('the CSV scanner against the parser', () => {
  it('takes what loggers write', () => {
    expect(taken(`${NAMES.join(',')}\n,0,0.1,0.2,0.98,47.1,8.1\nrest,10,0.1,-0.2,0.98,,\n`)).toBe(true);
    expect(taken(`${NAMES.join(';')}\r\n;0;0,1;0,2;0,98;47,1;8,1\r\n`)).toBe(true);
    expect(taken(`${NAMES.join(',')}\n,2026-04-03T10:00:00.5Z,1,2,3,4,5\n`)).toBe(true);
  });

  it('agrees on generated files, and takes many of them', () => {
    let [all, took] = [0, 0];
    fc.assert(
      fc.property(file, (text) => {
        all++;
        if (taken(text)) took++;
      }),
      { numRuns: 2000, seed: 7 },
    );
    expect(took / all).toBeGreaterThan(0.3);
  });

  it('agrees on files with a piece put in, left out or turned', () => {
    const place = fc.nat(2000);
    fc.assert(
      fc.property(
        file,
        fc.array(fc.tuple(place, place, fc.constantFrom(...PIECES)), { minLength: 1, maxLength: 3 }),
        (text, edits) => {
          let edited = text;
          for (const [at, length, piece] of edits) {
            const from = at % (edited.length + 1);
            edited = edited.slice(0, from) + piece + edited.slice(from + (length % 4));
          }
          taken(edited);
        },
      ),
      { numRuns: 4000, seed: 8 },
    );
  });
});
