import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pathOfBytes, systemPath } from '../../src/host/system-path.js';

describe('the path of a file', () => {
  it('is text that gives the same bytes again, whatever they are', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 40 }), (bytes) => {
        expect([...Buffer.from(systemPath(pathOfBytes(bytes)))]).toEqual([...bytes]);
      }),
      { numRuns: 1000 },
    );
  });

  it('of UTF-8 is the text that it is', () => {
    for (const path of ['a/b.gpx', 'sortie été.gpx', '朝の練習.fit', '🚣.csv', '\ufeffx'])
      expect([pathOfBytes(Buffer.from(path)), systemPath(path)]).toEqual([path, path]);
  });

  it('in Latin-1 keeps its letters apart', () => {
    expect(pathOfBytes(Buffer.from('\xe9t\xe9.gpx', 'latin1'))).toBe('\udce9t\udce9.gpx');
  });
});
