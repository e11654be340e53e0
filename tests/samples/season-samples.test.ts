import { mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { SOME_DAYS, seasonDays, seasonSamples } from './season-samples.js';

const FOLDER = 'samples/season';
const BLESS = process.env.BLESS === '1';

describe('samples/season', () => {
  it('is what the simulator makes; npm run samples brings it there', () => {
    const files = BLESS ? seasonSamples() : seasonDays(SOME_DAYS);
    expect(files.length).toBeGreaterThanOrEqual(SOME_DAYS.length);
    for (const { path, text } of files) {
      const file = join(FOLDER, path);
      if (BLESS) {
        mkdirSync(dirname(file), { recursive: true });
        writeFileSync(file, text);
      }
      expect(readFileSync(file, 'utf8') === text, `${file} is stale: npm run samples`).toBe(true);
    }
  });

  it('takes less than 3 MB', () => {
    const sizes = readdirSync(FOLDER, { recursive: true, encoding: 'utf8' }).map(
      (name) => statSync(join(FOLDER, name)).size,
    );
    expect(sizes.length).toBeGreaterThan(36);
    expect(sizes.reduce((sum, size) => sum + size, 0)).toBeLessThan(3e6);
  });
});
