import { readFileSync } from 'node:fs';
import { constants, gunzipSync, gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { unpacked } from '../../src/host/unpacked.js';

const MOST = 2 ** 26;
const WHOLE = readFileSync('samples/watch/watch.gpx');
const PACKED = gzipSync(WHOLE);

/** How many bytes of two arrays agree from the start. */
const alike = (one: Uint8Array, two: Uint8Array): number => {
  let i = 0;
  while (i < one.length && one[i] === two[i]) i++;
  return i;
};

describe('what can be unpacked', () => {
  it('is all of a sound file', async () => {
    const held = (await unpacked(PACKED, MOST))!;
    expect([alike(held.bytes, WHOLE), held.bytes.length, held.state]).toEqual([
      WHOLE.length,
      WHOLE.length,
      'whole',
    ]);
  });

  it('of a file with one bit flipped is all that stands before it', async () => {
    for (let i = 1; i < 40; i++) {
      const at = Math.floor((PACKED.length * i) / 40);
      const flipped = PACKED.map((byte, place) => (place === at ? byte ^ (1 << (i % 8)) : byte));
      const held = (await unpacked(flipped, MOST))!;
      expect(held.state).toMatch(/damaged|checksum|trailing/);
      // What a flipped bit makes of the stream is only noticed later, so more may come out, of which none is true.
      const before = gunzipSync(PACKED.subarray(0, at), { finishFlush: constants.Z_SYNC_FLUSH });
      expect(alike(held.bytes, WHOLE)).toBeGreaterThanOrEqual(before.length);
    }
  });

  it('of a file with junk behind it is all of it', async () => {
    for (const junk of [
      [1, 2, 3],
      [0x1f, 0x8b, 8, 0, 9, 9],
      [0x1f, 0x8b, 1],
    ]) {
      const held = (await unpacked(Buffer.concat([PACKED, Buffer.from(junk)]), MOST))!;
      expect(held.bytes.length).toBeGreaterThanOrEqual(WHOLE.length);
      expect(alike(held.bytes, WHOLE)).toBe(WHOLE.length);
      expect(held.state).not.toBe('whole');
    }
  });

  it('of a file whose checksum alone is wrong is all of it', async () => {
    const wrong = PACKED.map((byte, at) => (at === PACKED.length - 6 ? byte ^ 1 : byte));
    const held = (await unpacked(wrong, MOST))!;
    expect([alike(held.bytes, WHOLE), held.state]).toEqual([WHOLE.length, 'checksum']);
  });

  it('of a cut file is what stands before the cut', async () => {
    const { bytes, state } = (await unpacked(PACKED.subarray(0, PACKED.length >> 1), MOST))!;
    expect(state).toBe('cut');
    expect(bytes.length).toBeGreaterThan(WHOLE.length * 0.4);
    expect(alike(bytes, WHOLE)).toBe(bytes.length);
  });

  it('never is more than asked for', async () => {
    expect(await unpacked(PACKED, 1000)).toBeNull();
    const damaged = PACKED.map((byte, at) => (at === PACKED.length - 100 ? byte ^ 4 : byte));
    expect(await unpacked(damaged, 1000)).toBeNull();
  });
});
