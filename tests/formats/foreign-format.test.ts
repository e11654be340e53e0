import { describe, expect, it } from 'vitest';
import { isFault, readLog } from '../../src/formats/index.js';

const text = (content: string): Uint8Array => new TextEncoder().encode(content);

describe('a file that is no log', () => {
  it.each([
    ['a ZIP archive', Uint8Array.of(0x50, 0x4b, 3, 4, 20, 0, 0, 0), /ZIP archive; unpack it/],
    ['packed twice', Uint8Array.of(0x1f, 0x8b, 8, 0, 0, 0, 0, 0), /packed more than once/],
    ['a document', text('%PDF-1.7\n'), /PDF document/],
    [
      'a web page',
      text('<!DOCTYPE html><html><body>Sign in</body></html>'),
      /web page.*export the outing anew/,
    ],
    [
      'KML',
      text('<?xml version="1.0"?><kml xmlns="http://www.opengis.net/kml/2.2"><Document/></kml>'),
      /KML/,
    ],
    ['JSON', text('{"type": "FeatureCollection", "features": []}'), /JSON/],
    ['binary of its own', Uint8Array.from({ length: 300 }, (_, i) => (i * 37) & 0xff), /binary and not FIT/],
  ])('is named: %s', (_, bytes, message) => {
    const answer = readLog(bytes, 'x');
    expect(isFault(answer) && answer.message).toMatch(message);
  });
});
