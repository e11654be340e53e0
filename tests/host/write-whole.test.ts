import {
  chmodSync,
  lstatSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { writeWhole } from '../../src/host/write-whole.js';
import { UserError } from '../../src/units/user-error.js';

const folder = () => mkdtempSync(join(tmpdir(), 'thole-'));

describe('a file written whole', () => {
  it('replaces what was there and leaves nothing beside it', async () => {
    const at = folder();
    writeFileSync(join(at, 'x'), 'old');
    await writeWhole(join(at, 'x'), 'new');
    expect(readFileSync(join(at, 'x'), 'utf8')).toBe('new');
    expect(readdirSync(at)).toEqual(['x']);
  });

  it('keeps the permissions of what it replaces, and follows a link', async () => {
    const at = folder();
    writeFileSync(join(at, 'x'), 'old');
    chmodSync(join(at, 'x'), 0o640);
    symlinkSync('x', join(at, 'link'));
    symlinkSync('new', join(at, 'nowhere'));
    await writeWhole(join(at, 'link'), 'new');
    await writeWhole(join(at, 'nowhere'), 'newer');
    expect(readFileSync(join(at, 'x'), 'utf8')).toBe('new');
    expect(statSync(join(at, 'x')).mode & 0o777).toBe(0o640);
    expect(lstatSync(join(at, 'link')).isSymbolicLink()).toBe(true);
    expect(readFileSync(join(at, 'new'), 'utf8')).toBe('newer');
    expect(readdirSync(at).sort()).toEqual(['link', 'new', 'nowhere', 'x']);
  });

  it('says on one line why it cannot be written', async () => {
    const at = folder();
    await expect(writeWhole(join(at, 'no', 'x'), 'new')).rejects.toThrow(UserError);
    await expect(writeWhole(join(at, 'no', 'x'), 'new')).rejects.toThrow(
      /cannot write .*there is no such file or folder$/,
    );
  });
});
