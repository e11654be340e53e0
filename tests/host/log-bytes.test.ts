import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { logBytes } from '../../src/host/log-bytes.js';

const folder = mkdtempSync(join(tmpdir(), 'thole-'));
const at = (name: string, bytes: string | Uint8Array): string => {
  writeFileSync(join(folder, name), bytes);
  return join(folder, name);
};
const none = () => Readable.from([]);
const text = async (file: string, stdin = none()): Promise<string> => {
  const read = await logBytes(file, stdin);
  return 'fault' in read ? `${read.code}: ${read.message}` : Buffer.from(read.bytes).toString();
};

describe('the bytes of a log', () => {
  it('are those of the file, of standard input, or of what is packed', async () => {
    expect(await text(at('a', 'abc'))).toBe('abc');
    expect(await text('-', Readable.from([Buffer.from('ab'), Buffer.from('c')]))).toBe('abc');
    expect(await text(at('a.gz', gzipSync('abc')))).toBe('abc');
    expect(await text('-', Readable.from([gzipSync('abc')]))).toBe('abc');
  });

  it('of a packed file that is cut off are all that can be had', async () => {
    const whole = Array.from({ length: 20_000 }, (_, i) => `${(i * i) % 9973}\n`).join('');
    const packed = gzipSync(whole);
    const kept = await text(at('cut.gz', packed.subarray(0, packed.length >> 1)));
    expect(kept.length).toBeGreaterThan(whole.length / 4);
    expect(whole.startsWith(kept)).toBe(true);
    expect(await logBytes(join(folder, 'cut.gz'), none())).toMatchObject({ warnings: [{ code: 'cut-off' }] });
    expect(await logBytes(join(folder, 'a.gz'), none())).toMatchObject({ warnings: [] });
  });

  it('or why there are none, in one sentence', async () => {
    mkdirSync(join(folder, 'sub'));
    expect(await text(join(folder, 'sub'))).toMatch(/^is-folder: it is a folder/);
    expect(await text(join(folder, 'no'))).toBe(
      'unreadable: the log cannot be opened: there is no such file or folder',
    );
    expect(await text(at('e', ''))).toMatch(/^empty-file/);
    expect(await text(at('b.gz', Buffer.from([0x1f, 0x8b, 9, 9, 9])))).toMatch(/^bad-gzip/);
  });
});
