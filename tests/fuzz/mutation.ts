import { gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { mutated } from '../formats/damage.js';

const share = fc.noBias(fc.nat(999_999)).map((millionth) => millionth / 1e6);

/** What a number is replaced by: what formats take for "none", what types end at, what no double holds. */
const EXTREMES = [
  '0',
  '-0',
  '-1',
  '1',
  '255',
  '251',
  '65535',
  '1000',
  '100000',
  '86400',
  '4294967295',
  '2147483648',
  '9007199254740993',
  '1e12',
  '1e300',
  '-1e308',
  '1e999',
  '1e-320',
  '0.0000001',
  '90.0001',
  '89.9999999',
  '-180',
  '180.1',
  'NaN',
  'Infinity',
  'null',
  '',
  '0x10',
  '12,5',
  '1970-01-01T00:00:00Z',
  '2099-12-31T23:59:59.999Z',
  '0001-01-01T00:00:00Z',
  '99:59:59',
];

/** Names that an object has without having been given them, and names that say something else. */
const WORDS = [
  'constructor',
  '__proto__',
  'toString',
  'time',
  'time_s',
  'lat',
  'cadence_spm',
  'ax_g',
  '\u001b[2J',
];

const bytesEdit = fc.record({
  kind: fc.constantFrom('change', 'bit', 'lose', 'put', 'double', 'cut', 'zero'),
  place: share,
  length: fc.integer({ min: 1, max: 64 }),
  bytes: fc.uint8Array({ minLength: 1, maxLength: 12 }),
});

const numbers = fc.record({
  kind: fc.constant('numbers' as const),
  /** Of the numbers of the file, the place of the first and how many stand between two. */
  from: share,
  every: fc.oneof(fc.integer({ min: 1, max: 60 }), fc.constant(100_000)),
  put: fc.array(fc.constantFrom(...EXTREMES), { minLength: 1, maxLength: 3 }),
});

const words = fc.record({
  kind: fc.constant('words' as const),
  from: share,
  put: fc.constantFrom(...WORDS),
});

const integers = fc.record({
  kind: fc.constant('integers' as const),
  from: share,
  every: fc.integer({ min: 1, max: 64 }),
  length: fc.constantFrom(1, 2, 4),
  put: fc.constantFrom(0x00, 0x01, 0x7f, 0x80, 0xfe, 0xff),
});

const lines = fc.record({
  kind: fc.constantFrom('swap' as const, 'repeat' as const, 'drop' as const, 'reverse' as const),
  from: share,
  to: share,
  times: fc.integer({ min: 1, max: 40 }),
});

const whole = fc.record({
  kind: fc.constantFrom(
    'utf16' as const,
    'mark' as const,
    'returns' as const,
    'packed' as const,
    'packed twice' as const,
    'packed and cut' as const,
    'packed and junk' as const,
    'nested' as const,
    'segments' as const,
    'quotes' as const,
    'twice' as const,
    'years apart' as const,
  ),
  depth: fc.integer({ min: 1, max: 3000 }),
});

/** One thing that happens to a log on its way. */
export const mutation = fc.oneof(
  { weight: 3, arbitrary: bytesEdit },
  { weight: 6, arbitrary: numbers },
  { weight: 1, arbitrary: words },
  { weight: 3, arbitrary: integers },
  { weight: 3, arbitrary: lines },
  { weight: 2, arbitrary: whole },
);
export type Mutation = typeof mutation extends fc.Arbitrary<infer Kind> ? Kind : never;

const NUMBER = /[-+]?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?/g;
const WORD = /[A-Za-z_]{2,}/g;

const latin = (bytes: Uint8Array): string => Buffer.from(bytes).toString('latin1');
const bytesOf = (text: string): Uint8Array => new Uint8Array(Buffer.from(text, 'latin1'));

/** Replace some of what a pattern finds. @param of of the count of finds, which are replaced by what */
const replaced = (
  text: string,
  pattern: RegExp,
  put: (nth: number, count: number) => string | null,
): string => {
  const count = text.match(pattern)?.length ?? 0;
  let nth = 0;
  return text.replace(pattern, (found) => put(nth++, count) ?? found);
};

const repeatedLines = (bytes: Uint8Array, { kind, from, to, times }: Extract<Mutation, { to: number }>) => {
  const all = latin(bytes).split('\n');
  const [low, high] = [
    Math.floor(Math.min(from, to) * all.length),
    Math.ceil(Math.max(from, to) * all.length),
  ];
  const block = all.slice(low, high);
  const [before, after] = [all.slice(0, low), all.slice(high)];
  const most = Math.max(1, Math.floor(2000 / Math.max(1, block.length)));
  const made = {
    swap: [...after, ...block, ...before],
    repeat: [...before, ...Array.from({ length: Math.min(times, most) }, () => block).flat(), ...after],
    drop: [...before, ...after],
    reverse: [...before, ...block.reverse(), ...after],
  };
  return bytesOf(made[kind].join('\n'));
};

const wholly = (bytes: Uint8Array, kind: Extract<Mutation, { depth: number }>['kind'], depth: number) => {
  const text = latin(bytes);
  const middle = text.indexOf('\n', text.length / 2) + 1;
  switch (kind) {
    case 'utf16':
      return new Uint8Array(Buffer.from(`\ufeff${text}`, 'utf16le'));
    case 'mark':
      return Uint8Array.from([0xef, 0xbb, 0xbf, ...bytes]);
    case 'returns':
      return bytesOf(text.replaceAll('\n', '\r'));
    case 'packed':
      return new Uint8Array(gzipSync(bytes));
    case 'packed twice':
      return new Uint8Array(gzipSync(gzipSync(bytes)));
    case 'packed and cut':
      return mutated(new Uint8Array(gzipSync(bytes)), {
        kind: 'bit',
        place: (depth % 97) / 97,
        length: depth,
        bytes: Uint8Array.of(0),
      });
    case 'packed and junk':
      return Uint8Array.from([...gzipSync(bytes), 0x1f, 0x8b, depth & 0xff, 1, 2, 3]);
    case 'nested':
      return bytesOf(
        `${text.slice(0, middle)}${'<a>'.repeat(depth)}${'</a>'.repeat(depth)}${text.slice(middle)}`,
      );
    case 'segments':
      return bytesOf(text.replaceAll('</trkpt>', '</trkpt></trkseg><trkseg>'));
    case 'quotes':
      return bytesOf(`${text.slice(0, middle)}"${text.slice(middle)}`);
    case 'twice':
      return Uint8Array.from([...bytes, ...bytes]);
    case 'years apart':
      return bytesOf(text + text.replaceAll('2026-', '1999-').replaceAll('050526', '050599'));
  }
};

/** The bytes after one thing that happened to them. */
export const afterMutation = (bytes: Uint8Array, made: Mutation): Uint8Array => {
  if ('bytes' in made) return mutated(bytes, made);
  switch (made.kind) {
    case 'numbers':
      return bytesOf(
        replaced(latin(bytes), NUMBER, (nth, count) => {
          const past = nth - Math.floor(made.from * count);
          return past < 0 || past % made.every !== 0
            ? null
            : made.put[Math.floor(past / made.every) % made.put.length]!;
        }),
      );
    case 'words':
      return bytesOf(
        replaced(latin(bytes), WORD, (nth, count) =>
          nth === Math.floor(made.from * Math.min(count, 20)) ? made.put : null,
        ),
      );
    case 'integers':
      return bytes.map((byte, at) => {
        const past = at - Math.floor(made.from * bytes.length);
        return past >= 0 && past % made.every < made.length ? made.put : byte;
      });
    case 'swap':
    case 'repeat':
    case 'drop':
    case 'reverse':
      return repeatedLines(bytes, made);
    default:
      return wholly(bytes, made.kind, made.depth);
  }
};
