import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type KnownMinute, nextZuluTimeAt, zuluTimeAt } from '../../src/formats/byte-time.js';

const two = (value: number): string => String(value).padStart(2, '0');

/** Times as logs write them, mostly of few minutes, some of them damaged. */
const time = fc
  .tuple(
    fc.constantFrom(
      '2026-05-02T06:32',
      '2026-05-02T06:33',
      '2026-05-02T23:59',
      '2026-13-02T06:32',
      '2026-05-02 06:32',
    ),
    fc.oneof(fc.nat({ max: 99 }).map(two), fc.constant('59')),
    fc.constantFrom(
      '',
      '.',
      '.5',
      '.99999999',
      '.123456789',
      '.1234567890123456',
      '.9999999999999999999',
      ',5',
    ),
    fc.constantFrom('Z', 'Z', 'Z', '+00:00', ''),
  )
  .map(([minute, second, fraction, zone]) => `${minute}:${second}${fraction}${zone}`);

it('reads one time after the other as each alone, to the bit', () => {
  fc.assert(
    fc.property(fc.array(time, { minLength: 1, maxLength: 30 }), (times) => {
      const bytes = new TextEncoder().encode(`${times.join('\n')}\n`);
      const minute: KnownMinute = { at: -1, unixS: 0 };
      let from = 0;
      for (const text of times) {
        const [alone, next] = [
          { bytes, at: from },
          { bytes, at: from },
        ];
        expect(nextZuluTimeAt(next, minute)).toBe(zuluTimeAt(alone));
        expect(next.at).toBe(alone.at);
        from += text.length + 1;
      }
    }),
  );
});
