import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inputText } from '../../src/host/input-text.js';

const folder = mkdtempSync(join(tmpdir(), 'input-'));
const written = (name: string, bytes: Uint8Array): string => {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  return path;
};

describe('the text of an input file', () => {
  it.each([
    ['utf8', Buffer.from('crew;Zürich\n', 'utf8')],
    ['latin', Buffer.from('crew;Zürich\n', 'latin1')],
    ['wide', Buffer.concat([Buffer.from([0xff, 0xfe]), Buffer.from('crew;Zürich\n', 'utf16le')])],
  ])('is the same whatever a spreadsheet saved it in: %s', async (name, bytes) => {
    expect(await inputText(written(`${name}.csv`, bytes), 'entry list')).toBe('crew;Zürich\n');
  });

  it('is refused where it is none', async () => {
    await expect(inputText(written('x.bin', Buffer.from([0x80, 0, 1, 2])), 'plan')).rejects.toThrow(
      'is not text: save it as UTF-8',
    );
  });
});
