import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitsPattern } from '../../src/checks/file-pattern.js';

/** The same by a regular expression, which is easy to read and may take for ever. */
const fitsByExpression = (file: string, pattern: string): boolean => {
  const source = pattern
    .replace(/[.+^${}()|[\]\\]/g, '\\$&')
    .replace(/\*\*\/|\*\*|\*|\?/g, (found) =>
      found === '**/' ? '(?:.*/)?' : found === '**' ? '.*' : found === '*' ? '[^/]*' : '[^/]',
    );
  const whole = pattern.includes('/') ? file : (file.split('/').at(-1) ?? '');
  return new RegExp(`^(?:.*/)?${source}$`).test(whole);
};

describe('a file pattern', () => {
  it.each([
    ['a/b/x.gpx', '*.gpx', true],
    ['a/b/x.gpx', '*.fit', false],
    ['a/b/x.gpx', 'b/*', true],
    ['a/b/x.gpx', 'a/*', false],
    ['a/b/x.gpx', 'a/**', true],
    ['a/b/c/x.gpx', 'a/**/x.gpx', true],
    ['a/x.gpx', 'a/**/x.gpx', true],
    ['ab/x.gpx', 'b/**/x.gpx', false],
    ['a\\b\\x.gpx', 'b/*', true],
    ['x+y.gpx', 'x+?.gpx', true],
    ['xxy.gpx', 'x+y.gpx', false],
  ])('%s and %s: %s', (file, pattern, fits) => {
    expect(fitsPattern(file, pattern)).toBe(fits);
  });

  it('means what its regular expression means', () => {
    const file = fc.string({ unit: fc.constantFrom('a', 'b', '/', '.'), maxLength: 12 });
    const pattern = fc
      .array(fc.constantFrom('a', 'b', '/', '.', '*', '?', '**', '**/', '+'), { maxLength: 8 })
      .map((parts) => parts.join(''));
    fc.assert(
      fc.property(file, pattern, (name, like) => {
        expect(fitsPattern(name, like)).toBe(fitsByExpression(name, like));
      }),
      { numRuns: 3000 },
    );
  });

  it('is followed though there are more ways than could ever be tried', () => {
    expect(fitsPattern('a'.repeat(4000), `${'*a'.repeat(40)}b`)).toBe(false);
    expect(fitsPattern(`${'a/'.repeat(2000)}x`, `${'**/a/'.repeat(40)}b`)).toBe(false);
  });
});
