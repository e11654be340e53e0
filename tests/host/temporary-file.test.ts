import { mkdirSync, mkdtempSync, readdirSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { sweepCache } from '../../src/host/cache.js';
import { sweepTemporaries, temporaryBeside } from '../../src/host/temporary-file.js';
import { writeWhole } from '../../src/host/write-whole.js';

const NOW_S = Date.now() / 1000;

/** A folder with a file of such a name and age. */
const folderWith = (
  names: readonly string[],
  ageS: number,
  folder = mkdtempSync(join(tmpdir(), 'thole-')),
) => {
  for (const name of names) {
    writeFileSync(join(folder, name), 'x');
    utimesSync(join(folder, name), NOW_S - ageS, NOW_S - ageS);
  }
  return folder;
};
const left = () => basename(temporaryBeside('x'));

describe('what a killed run left half written', () => {
  it('is removed when it is old, and only then', async () => {
    const [old, young] = [folderWith([left()], 4000), folderWith([left()], 60)];
    for (const folder of [old, young]) await sweepTemporaries(folder, NOW_S * 1000);
    expect(readdirSync(old)).toEqual([]);
    expect(readdirSync(young)).toHaveLength(1);
  });

  it('is never a file of another name, or a folder', async () => {
    const others = ['.thole', '.thole-1', '.thole-notes', '.thole-12-0123456789ab.txt', 'x.json'];
    const folder = folderWith(others, 1e6);
    const name = join(folder, left());
    mkdirSync(name);
    utimesSync(name, 0, 0);
    await sweepTemporaries(folder, NOW_S * 1000);
    expect(readdirSync(folder)).toHaveLength(others.length + 1);
    await sweepTemporaries(join(folder, 'not there'), NOW_S * 1000);
  });

  it('goes with the next file that is written beside it, and with the next look at a cache', async () => {
    const folder = folderWith([left()], 4000);
    await writeWhole(join(folder, 'result.json'), '{}');
    expect(readdirSync(folder)).toEqual(['result.json']);
    const cache = mkdtempSync(join(tmpdir(), 'thole-'));
    mkdirSync(join(cache, 'ab'));
    folderWith([left(), 'kept.json'], 4000, join(cache, 'ab'));
    await sweepCache(cache);
    expect(readdirSync(join(cache, 'ab'))).toEqual(['kept.json']);
  });
});
