import { describe, expect, it } from 'vitest';
import { parseStream } from '../../src/units/stream.js';

describe('a stream', () => {
  it('is its speed and the direction it flows to', () => {
    expect(parseStream(' 0.4 @ 270')).toEqual({ speedMps: 0.4, toDeg: 270 });
    expect(parseStream('0@360')).toEqual({ speedMps: 0, toDeg: 0 });
  });

  it.each(['fast', '0.4', '@90', '9@90', '0.4@400', '-1@90'])('is not %j', (text) => {
    expect(() => parseStream(text)).toThrow(/is not a stream/);
  });
});
