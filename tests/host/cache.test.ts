import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contentHash, openCache } from '../../src/host/cache.js';

const folder = () => mkdtempSync(join(tmpdir(), 'thole-'));
const KEY = contentHash(['a log']);

describe('the cache', () => {
  it('keeps a value under its key and no other', async () => {
    const cache = openCache<object>(folder());
    expect(await cache.get(KEY)).toEqual({ state: 'none' });
    await cache.put(KEY, { metres: 1.5, crew: 'Heron\n' });
    expect(await cache.get(KEY)).toEqual({ state: 'kept', value: { metres: 1.5, crew: 'Heron\n' } });
    expect(await cache.get(contentHash(['another']))).toEqual({ state: 'none' });
  });

  it('notices damage anywhere in an entry', async () => {
    const at = folder();
    const cache = openCache<object>(at);
    await cache.put(KEY, { metres: 1.5, crew: 'Heron' });
    const path = join(at, KEY.slice(0, 2), `${KEY}.json`);
    const whole = readFileSync(path);
    await fc.assert(
      fc.asyncProperty(fc.nat(whole.length - 2), fc.integer({ min: 1, max: 255 }), async (place, change) => {
        const damaged = Buffer.from(whole);
        damaged[place] = damaged[place]! ^ change;
        writeFileSync(path, damaged);
        expect((await cache.get(KEY)).state).toBe('damaged');
        writeFileSync(path, whole.subarray(0, place));
        expect((await cache.get(KEY)).state).toBe('damaged');
      }),
    );
    await cache.put(KEY, { metres: 2 });
    expect(await cache.get(KEY)).toEqual({ state: 'kept', value: { metres: 2 } });
  });

  it('takes two writers of one entry at once', async () => {
    const at = folder();
    await Promise.all(Array.from({ length: 30 }, (_, i) => openCache<number>(at).put(KEY, i % 2)));
    expect(await openCache<number>(at).get(KEY)).toMatchObject({ state: 'kept' });
    expect(readdirSync(join(at, KEY.slice(0, 2)))).toEqual([`${KEY}.json`]);
  });

  it('keys tell parts apart', () => {
    expect(contentHash(['ab', 'c'])).not.toBe(contentHash(['a', 'bc']));
  });
});
