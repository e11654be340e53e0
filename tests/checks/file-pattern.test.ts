import { describe, expect, it } from 'vitest';
import { fitsPattern } from '../../src/checks/file-pattern.js';

describe('a file pattern', () => {
  it.each([
    ['a/b/x.gpx', '*.gpx', true],
    ['a/b/x.gpx', '*.fit', false],
    ['a/b/x.gpx', 'b/*', true],
    ['a/b/x.gpx', 'a/*', false],
    ['a/b/x.gpx', 'a/**', true],
    ['a/b/c/x.gpx', 'a/**/x.gpx', true],
    ['x+y.gpx', 'x+?.gpx', true],
    ['xxy.gpx', 'x+y.gpx', false],
  ])('%s and %s: %s', (file, pattern, fits) => {
    expect(fitsPattern(file, pattern)).toBe(fits);
  });
});
