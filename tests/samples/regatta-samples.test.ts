import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { regattaSamples } from './regatta-samples.js';

const FOLDER = 'samples/regatta';

/** What is in a file: packing may differ between versions of zlib. */
const unpacked = (path: string, bytes: Uint8Array): string =>
  Buffer.from(path.endsWith('.gz') ? gunzipSync(bytes) : bytes).toString();

describe('samples/regatta', () => {
  const made = regattaSamples();

  it('is what the simulator makes; npm run samples brings it there', () => {
    for (const { path, bytes } of made) {
      const file = join(FOLDER, path);
      if (process.env.BLESS === '1') {
        mkdirSync(dirname(file), { recursive: true });
        writeFileSync(file, bytes);
      }
      expect(
        unpacked(path, readFileSync(file)) === unpacked(path, bytes),
        `${file} is stale: npm run samples`,
      ).toBe(true);
    }
  });

  it('takes less than 6 MB', () => {
    expect(made.reduce((sum, { bytes }) => sum + bytes.length, 0)).toBeLessThan(6e6);
  });
});
